import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import type { Finding } from "../core/base/finding.ts";
import type { PlanRecord } from "../core/plan/record.ts";
import { lineMinor, takeOff } from "../core/stages/takeoff/takeoff.ts";
import { sampleJob, samplePlan } from "../fixtures/samplePlan.ts";
import { en } from "../words/en/index.ts";
import { writeCsv } from "../write/csv.ts";
import { cutGrid, cutPaper } from "./cutlist.ts";
import { safeFileName } from "./fileName.ts";
import { findingsPaper } from "./findings.ts";
import { orderGrid, orderPaper } from "./order.ts";
import { cutsOf } from "./pieces.ts";
import { rankedFindings } from "./ranked.ts";
import type { Paper } from "./sheet.ts";
import { stakingGrid, stakingPaper } from "./staking.ts";
import { summaryPaper, summaryText } from "./summary.ts";

function plan(rows = 13): PlanRecord {
  const record = samplePlan(sampleJob(), rows);
  const { job, survey, preparation, setout, bond, fixing, cutting } = record;
  return { ...record, takeoff: takeOff(job, survey, preparation, setout, bond, fixing, cutting) };
}
const words = (paper: Paper): string[] =>
  paper.sheets.flatMap((sheet) => sheet.items.flatMap((item) => (item.kind === "text" ? [item.text] : [])));
const parsed = (bytes: Uint8Array): string[][] =>
  Papa.parse<string[]>(new TextDecoder().decode(bytes), { skipEmptyLines: true }).data;

describe("cut list", () => {
  it("names every piece a saw touches once, under a stop that is never longer than drawn", () => {
    const record = plan();
    const cuts = cutsOf(record);
    const [head, ...rows] = parsed(writeCsv(cutGrid(record, en)));
    const column = (name: string) => head!.indexOf(name);
    expect(rows.map((row) => row[column("Piece")]).sort()).toEqual(
      cuts
        .filter((cut) => !cut.whole)
        .map((cut) => cut.id)
        .sort(),
    );
    for (const row of rows) {
      const piece = record.bond.pieces.find((p) => p.id === row[column("Piece")])!;
      expect(Number(row[0]) * 1000).toBeLessThanOrEqual(piece.lengthUm);
      expect(row[column("When")]).toBe(piece.cutWhen === "ahead" ? "ahead" : "when measured");
      const board = record.cutting.boards.find((b) => b.id === row[column("Board")])!;
      expect(board.parts.some((part) => part.piece === record.bond.pieces.indexOf(piece))).toBe(true);
    }
    expect(rows.map((row) => Number(row[0]))).toEqual(rows.map((row) => Number(row[0])).sort((a, b) => b - a));
    const said = words(cutPaper(record, en)).join(" ");
    for (const cut of cuts.filter((c) => !c.whole))
      expect(said).toContain(`${cut.id} (${cut.boardId})`.replace(" ", " "));
  });

  it("gives both lengths and the lean of a slanting end", () => {
    const cut = cutsOf(plan()).find((c) => c.id === "p8")!;
    // The right end runs back 1 in 20: over 145 mm of width 7.25 mm.
    expect(cut).toMatchObject({
      shape: "slanting",
      cutEnds: "right",
      leanLeftMm: 0,
      leanRightMm: -7,
      stopMm: cut.nearMm,
    });
    expect(cut.nearMm - cut.farMm).toBeGreaterThanOrEqual(7);
    expect(cut.nearMm - cut.farMm).toBeLessThanOrEqual(8);
  });
});

describe("a rip along a wall that is not parallel", () => {
  /** Piece p1 as one that runs from 88 mm at its left end to 86 mm at its right, its groove towards the start line. */
  function tapered(): PlanRecord {
    const record = plan();
    const piece = record.bond.pieces[0]!;
    const { u0Um, u1Um, v0Um } = piece;
    const [left, right] = [88_000, 86_000];
    const outer = [
      [u0Um, v0Um],
      [u1Um, v0Um],
      [u1Um, v0Um + right],
      [u0Um, v0Um + left],
    ] as [number, number][];
    record.bond.pieces[0] = {
      ...piece,
      plain: false,
      v1Um: v0Um + left,
      widthUm: left,
      edges: ["groove", "ripped"],
      region: { outer, holes: [] },
    };
    return record;
  }

  it("gives the width at both ends and which edge comes off, not a triangle", () => {
    const record = tapered();
    const cut = cutsOf(record)[0]!;
    expect(cut).toMatchObject({ shape: "tapered", ripMm: 88, taperMm: [88, 86], ripped: "far" });
    expect(cut.farMm).toBe(cut.nearMm);
    const said = words(cutPaper(record, en));
    expect(said).toContain("88/86");
    expect(said).toContain("far");
    const [head, ...rows] = parsed(writeCsv(cutGrid(record, en)));
    const row = rows.find((r) => r[head!.indexOf("Piece")] === cut.id)!;
    expect([row[head!.indexOf("Rip left mm")], row[head!.indexOf("Rip right mm")]]).toEqual(["88", "86"]);
  });
});

describe("order list", () => {
  it("keeps hostile text as text and numbers as numbers, through CSV and back", () => {
    const record = plan();
    for (const name of ['=HYPERLINK("x")', "+1", "-1", "@sum", "\tx", "\rx", 'a,"b"\nc', "plain", " =1", "\uff1d1"]) {
      record.takeoff.items[0] = { ...record.takeoff.items[0]!, item: "board-1500", name };
      const rows = parsed(writeCsv(orderGrid(record, en)));
      const said = rows[1]![1]!;
      expect(/^\s*[=+\-@\uff1d]/.test(said) || /^[\t\r]/.test(said)).toBe(false);
      expect(said.replace(/^'/, "")).toBe(name);
      expect(rows.every((row) => row.length === rows[0]!.length)).toBe(true);
      expect(Number(rows[1]![3])).toBe(record.takeoff.items[0]!.need);
    }
  });

  it("adds up: the sums of the lines are the total, on paper and in the file", () => {
    const record = plan();
    const sums = orderGrid(record, en).rows.map((row) => Math.round(((row[8] as number | null) ?? 0) * 100));
    expect(sums.reduce((a, b) => a + b, 0)).toBe(record.takeoff.totalMinor);
    expect(sums).toEqual(record.takeoff.items.map(lineMinor));
    expect(words(orderPaper(record, en)).join(" ")).toContain(en.write.money(record.takeoff.totalMinor, "EUR"));
  });
});

describe("boards in the fitter's yard", () => {
  it("have a column of the order list only where there are some", () => {
    const bare = plan();
    expect(orderGrid(bare, en).columns.map((c) => c.head)).not.toContain("Your yard");
    const yard = { ...bare.job, board: { ...bare.job.board, lengths: [{ ...bare.job.board.lengths[0]!, owned: 5 }] } };
    const { survey, preparation, setout, bond, fixing, cutting } = bare;
    const record = {
      ...bare,
      job: yard,
      takeoff: takeOff(yard, survey, preparation, setout, bond, fixing, cutting),
    };
    const [head, row] = parsed(writeCsv(orderGrid(record, en)));
    expect(row![head!.indexOf("Your yard")]).toBe("5");
    expect(Number(row![head!.indexOf("Buy")])).toBe(bare.takeoff.items[0]!.buy - 5);
    const said = words(orderPaper(record, en)).join(" ");
    expect(said).toContain("Your yard");
    expect(said).toContain("Set it aside");
  });
});

describe("ends that lean", () => {
  const leaning = (um: number, both: number, cutTo = 1) => {
    const record = plan();
    const i = record.bond.pieces.findIndex((piece) => piece.plain && !piece.edges.includes("ripped"));
    const piece = record.bond.pieces[i]!;
    const { u0Um: u0, u1Um: u1, v0Um: v0, v1Um: v1 } = piece;
    piece.plain = false;
    piece.region = {
      outer: [
        [u0, v0],
        [u1, v0],
        [u1 - um, v1],
        [u0 + both, v1],
      ],
      holes: [],
    };
    record.job.cut.cutTo = cutTo;
    return { cut: cutsOf(record)[i]!, fullMm: (u1 - u0) / 1000 };
  };

  it("less than 1 mm over the board's width are sawn square at what lies within both edges", () => {
    const { cut, fullMm } = leaning(900, 0);
    expect(cut).toMatchObject({ shape: "square", stopMm: Math.floor(fullMm - 0.9), leanLeftMm: 0, leanRightMm: 0 });
    expect(cut.nearMm).toBe(cut.farMm);
    // A parallelogram has two edges alike and no square end of that length in it.
    expect(leaning(-900, 900).cut).toMatchObject({ shape: "square", stopMm: Math.floor(fullMm - 0.9) });
  });

  it("1 mm or more keep their lean, unless the saw is set to coarser steps; an edge gap's 2 mm are never passed", () => {
    expect(leaning(1000, 0).cut.shape).toBe("slanting");
    expect(leaning(1900, 0, 2).cut.shape).toBe("square");
    expect(leaning(2000, 0, 10).cut.shape).toBe("slanting");
  });
});

describe("staking list", () => {
  it("lists each reading with something to do, counts those left, or says why there is none; the CSV holds all", () => {
    const record = plan();
    expect(stakingGrid(record, en)).toBeNull();
    expect(words(stakingPaper(record, en)).join(" ")).toContain("No levels were given");
    const stakes = Array.from({ length: 400 }, (_, i) => ({
      at: [i * 10, 5] as const,
      nowMm: 10,
      thenMm: 10 + (i % 3) - 1,
      changeMm: (i % 3) - 1,
    }));
    record.preparation = {
      chosen: 0,
      findings: [],
      options: [
        {
          option: "patch",
          grindMm3: 1,
          fillMm3: 1,
          massKg: 1,
          massPerM2Kg: 1,
          costMinor: 100,
          planes: [],
          why: "",
          feasible: true,
          materials: [],
          stakes,
        },
      ],
    };
    const rows = parsed(writeCsv(stakingGrid(record, en)!)).slice(1);
    expect(rows).toHaveLength(400);
    expect(rows.slice(0, 3).map((row) => [row[5], row[6]])).toEqual([
      ["-1.0", "grind"],
      ["0.0", "leave"],
      ["1.0", "fill"],
    ]);
    const paper = stakingPaper(record, en);
    expect(paper.sheets.length).toBeGreaterThan(1);
    const numbers = words(paper)
      .filter((t) => /^\d+$/.test(t))
      .map(Number);
    for (let i = 1; i <= 400; i++) if (i % 3 !== 2) expect(numbers).toContain(i);
    expect(words(paper).filter((t) => t === "leave")).toEqual([]);
    expect(words(paper).join(" ")).toContain("Leave: 133 readings");
    record.preparation.options[0]!.stakes = stakes.map((stake) => ({ ...stake, changeMm: 0 }));
    const idle = stakingPaper(record, en);
    expect(idle.sheets).toHaveLength(1);
    expect(words(idle).join(" ")).toContain("Leave: 400 readings");
  });
});

describe("summary", () => {
  const finding = (code: string, level: "stop" | "warn" | "note", data: unknown): Finding => ({
    code,
    rule: "takeoff",
    level,
    at: [1000, 20],
    found: null,
    limit: null,
    releasedBy: "reading",
    data,
  });

  it("is one page, begins with what is excused, and ranks and merges its findings", () => {
    const record = plan();
    record.site.cautions = [
      "silica",
      "compositeDust",
      "saw",
      "services",
      "rcd",
      "edgeHeight",
      "load",
      "slips",
      "hotSurface",
      "lifting",
      "wetCement",
      "vibration",
      "peopleBelow",
      "film",
    ];
    record.takeoff.findings.push(
      ...Array.from({ length: 30 }, (_, side) => finding("trimMissing", "warn", { side, lengthMm: 900 })),
      finding("fixingDepth", "stop", { embedMm: 35, kind: "tiles" }),
      finding("batches", "note", { packs: 3 }),
      finding("trimCurved", "note", { side: 1, lengthMm: 900 }),
      finding("fixingLengths", "note", { leastMm: 35, greatestMm: 60, lengths: 3 }),
    );
    const ranked = rankedFindings(record);
    expect(ranked.map((r) => r.finding.level)).toEqual(
      [...ranked.map((r) => r.finding.level)].sort((a, b) => "stop warn note".indexOf(a) - "stop warn note".indexOf(b)),
    );
    expect(ranked.find((r) => r.finding.code === "trimMissing")!.count).toBe(30);
    const first = "2 breaches are excused by findings.";
    const paper = summaryPaper(record, en, first);
    expect(paper.sheets).toHaveLength(1);
    expect(words(paper).join(" ")).toContain(first);
    const lines = summaryText(record, en, first);
    expect(lines[0]).toBe(first);
    const list = words(findingsPaper(record, en));
    const said = words(paper);
    // Every finding is in the list under its number; the page's numbers are the list's.
    for (let i = 1; i <= 36; i++) expect(list.some((t) => new RegExp(`^(STOP|Warning|Note) ${i}$`).test(t))).toBe(true);
    expect(said.filter((t) => /^STOP \d+$/.test(t))).toEqual(["STOP 1"]);
    for (const t of said.filter((t) => /^(STOP|Warning|Note) \d+$/.test(t))) expect(list).toContain(t);
    expect(lines.join(" ").replace(/\s+/g, " ")).toContain("and 29 more places");
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(100);
    expect(lines.join("\n")).toContain(en.write.m2(record.setout.fieldAreaUm2 / 1e6));
  });
});

describe("every list", () => {
  it("keeps its text on the sheet, 2.5 mm at least, with page x of y and what is measured, assumed, checked", () => {
    const record = plan(60);
    for (const paper of [
      cutPaper(record, en),
      orderPaper(record, en),
      stakingPaper(record, en),
      summaryPaper(record, en, "None."),
    ]) {
      paper.sheets.forEach((sheet, i) => {
        const said = sheet.items.flatMap((item) => (item.kind === "text" ? [item] : []));
        for (const t of said) {
          expect(t.heightMm).toBeGreaterThanOrEqual(2.5);
          expect(t.at[1]).toBeGreaterThanOrEqual(9);
        }
        expect(said.some((t) => t.text === `Page ${i + 1} of ${paper.sheets.length}`)).toBe(true);
        expect(said.map((t) => t.text).join(" ")).toMatch(/Measured:.*Assumed:.*Checked:/);
      });
    }
  });
});

describe("file names", () => {
  it("never break a file, an archive or a shell", () => {
    for (const name of [
      "../../etc/passwd",
      'a/b\\c:d*e?f"g<h>|i',
      "",
      "...",
      "CON",
      "x".repeat(500),
      "a\u202eb\0c",
      "-rf",
      "Hof 7, Ofenweg",
      "中庭",
    ]) {
      const safe = safeFileName(name);
      expect(safe).toMatch(/^[\p{L}\p{N}][\p{L}\p{N}-]*$/u);
      expect(safe.length).toBeLessThanOrEqual(64);
      expect(safe).not.toMatch(/^(con|nul)$/i);
    }
    expect(safeFileName("Hof 7, Ofenweg")).toBe("Hof-7-Ofenweg");
  });
});
