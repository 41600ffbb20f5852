import { describe, expect, it } from "vitest";
import { lookAt, onPaper, textBox } from "./drawing/look.ts";
import type { Item, Paper, Sheet } from "./sheet.ts";
import { HOSTILE, SHAPES, samplePapers } from "./testing/papers.ts";
import { testFinding } from "./testing/words.ts";
import { textWidthMm } from "./text.ts";

type Words = Item & { kind: "text" };
interface Placed {
  item: Words;
  box: { x0: number; y0: number; x1: number; y1: number };
  view: boolean;
}

/** Every text of a sheet with the box it takes on paper, those outside their view left out. */
function textsOf(sheet: Sheet): Placed[] {
  const out: Placed[] = [];
  for (const item of sheet.items)
    if (item.kind === "text") out.push({ item, box: textBox(lookAt(1), item), view: false });
  for (const view of sheet.views) {
    const look = lookAt(view.scale, view.turnDeg);
    const [ox, oy] = onPaper(look, view.at);
    for (const item of view.items) {
      if (item.kind !== "text") continue;
      const box = textBox(look, item);
      const placed = {
        x0: box.x0 - ox + view.x,
        x1: box.x1 - ox + view.x,
        y0: box.y0 - oy + view.y,
        y1: box.y1 - oy + view.y,
      };
      if (
        placed.x1 < view.x ||
        placed.x0 > view.x + view.width ||
        placed.y1 < view.y ||
        placed.y0 > view.y + view.height
      )
        continue;
      // What reaches beyond its view is cut off there.
      placed.x0 = Math.max(placed.x0, view.x);
      placed.x1 = Math.min(placed.x1, view.x + view.width);
      placed.y0 = Math.max(placed.y0, view.y);
      placed.y1 = Math.min(placed.y1, view.y + view.height);
      out.push({ item, box: placed, view: true });
    }
  }
  return out;
}

/** Pairs of texts that cover one another, of those that stand square to the paper. */
function collisions(sheet: Sheet): string[] {
  const square = textsOf(sheet).filter(
    ({ item, box }) => Math.min(box.x1 - box.x0, box.y1 - box.y0) < item.heightMm * 1.05,
  );
  const out: string[] = [];
  for (let i = 0; i < square.length; i++) {
    for (let j = i + 1; j < square.length; j++) {
      const [a, b] = [square[i]!, square[j]!];
      const wide = Math.min(a.box.x1, b.box.x1) - Math.max(a.box.x0, b.box.x0);
      const tall = Math.min(a.box.y1, b.box.y1) - Math.max(a.box.y0, b.box.y0);
      if (wide > 0.1 && tall > 0.1) out.push(`${sheet.name}: "${a.item.text}" on "${b.item.text}"`);
    }
  }
  return out;
}

const all: [string, Paper][] = Object.entries(SHAPES).flatMap(([name, wish]) =>
  Object.values(samplePapers(wish)).map((paper): [string, Paper] => [`${name} ${paper.name}`, paper]),
);

describe.each(all)("the sheets of %s", (_, paper) => {
  it("let no text cover another", () => {
    expect(paper.sheets.flatMap(collisions)).toEqual([]);
  });

  it("keep every text of the sheet inside the frame and at least 2.5 mm high", () => {
    for (const sheet of paper.sheets) {
      for (const { item, box, view } of textsOf(sheet)) {
        expect(item.heightMm, item.text).toBeGreaterThanOrEqual(2.5);
        if (view) continue;
        expect(box.x0, item.text).toBeGreaterThan(20);
        expect(box.x1, item.text).toBeLessThan(sheet.widthMm - 10);
        expect(box.y0, item.text).toBeGreaterThan(10);
        expect(box.y1, item.text).toBeLessThan(sheet.heightMm - 10);
      }
    }
  });

  it("show the site at a standard scale on an ISO sheet, its whole extent within the view", () => {
    const sheet = paper.sheets[0]!;
    expect([
      [297, 210],
      [420, 297],
      [594, 420],
      [841, 594],
    ]).toContainEqual([sheet.widthMm, sheet.heightMm]);
    for (const view of sheet.views) {
      expect([1, 2, 5, 10, 20, 50, 100, 200, 500]).toContain(view.scale);
      const look = lookAt(view.scale, view.turnDeg);
      const [ox, oy] = onPaper(look, view.at);
      for (const item of view.items) {
        if (item.kind !== "path" || item.layer !== "outline") continue;
        for (const point of item.points) {
          const [x, y] = onPaper(look, point);
          expect(x - ox).toBeGreaterThan(0);
          expect(y - oy).toBeGreaterThan(0);
          expect(x - ox).toBeLessThan(view.width);
          expect(y - oy).toBeLessThan(view.height);
        }
      }
    }
  });

  it("say what is measured, assumed and checked, and carry the 100 mm bar", () => {
    for (const sheet of paper.sheets) {
      const words = sheet.items.flatMap((item) => (item.kind === "text" ? [item.text] : []));
      for (const needed of ["Measured", "Assumed", "Checked", "100"]) expect(words).toContain(needed);
      expect(
        sheet.items.some(
          (item) => item.kind === "path" && item.points.length === 4 && item.points[1]![0] - item.points[0]![0] === 100,
        ),
      ).toBe(true);
    }
  });
});

describe("findings beside a drawing", () => {
  const said = (what: string): string[] => {
    const findings = [testFinding("warn", [1000, 1000], "Something.", what)];
    const { setout } = samplePapers({ findings });
    return setout.sheets[0]!.items.flatMap((item) => (item.kind === "text" ? [item.text] : []));
  };

  it("say where the full text stands when one is shortened, and only then", () => {
    const long = said("Do this and that and then the next thing. ".repeat(20)).join(" ");
    expect(long).toContain("\u2026");
    expect(long).toContain("findings.pdf, by number");
    expect(said("Do this.").join(" ")).not.toContain("findings.pdf");
  });
});

describe("drilling positions", () => {
  it("are left off, and every sheet is marked, until drilling is released", () => {
    const { base, setout, fixing } = samplePapers({ released: false });
    for (const sheet of [...base.sheets, ...setout.sheets, ...fixing.sheets]) {
      expect(sheet.items.some((item) => item.kind === "text" && item.text === "NOT FOR DRILLING")).toBe(true);
      expect(
        sheet.views.flatMap((view) => view.items).filter((item) => item.layer === "clips" || item.layer === "screws"),
      ).toEqual([]);
    }
    expect(fixing.notes?.join(" ")).toContain("NOT FOR DRILLING");
  });

  it("stand once for each clip and screw when it is released", () => {
    const { fixing } = samplePapers();
    for (const scale of new Set(fixing.sheets.flatMap((sheet) => sheet.views.map((view) => view.scale)))) {
      const items = fixing.sheets.flatMap((sheet) => sheet.views).find((view) => view.scale === scale)!.items;
      expect(items.filter((item) => item.layer === "clips").length).toBe(431);
      expect(items.filter((item) => item.layer === "screws").length).toBe(1);
    }
  });
});

describe("the base drawing", () => {
  it("colours nothing where nothing was measured, and hatches what fails", () => {
    const without = samplePapers({ levels: false }).base;
    expect(
      without.sheets
        .flatMap((sheet) => sheet.views)
        .flatMap((view) => view.items)
        .filter((item) => ["deviation", "contours", "falls", "levels"].includes(item.layer)),
    ).toEqual([]);
    const items = samplePapers().base.sheets[0]!.views[1]!.items.filter(
      (item) => item.layer === "deviation" && item.kind === "region",
    );
    const hatched = items.filter((item) => item.kind === "region" && item.fill && "hatchDeg" in item.fill);
    expect(items.length).toBe(8);
    expect(hatched.length).toBe(2);
  });
});

describe("findings", () => {
  it("keep one number on the drawing and in the list, at most twelve written out", () => {
    const findings = Array.from({ length: 30 }, (_, i) =>
      testFinding(
        i % 2 ? "warn" : "note",
        [500 + 150 * i, 1000],
        `Finding ${i} says something about this place.`,
        "Do that.",
      ),
    );
    const { setout } = samplePapers({ findings });
    const sheet = setout.sheets[0]!;
    const drawn = sheet.views[0]!.items.flatMap((item) =>
      item.kind === "mark" && item.layer === "findings" ? [item.number] : [],
    );
    expect(drawn).toEqual(Array.from({ length: 12 }, (_, i) => String(i + 1)));
    const listed = sheet.items.filter((item) => item.kind === "mark" && item.layer === "findings").length;
    const more = sheet.items.flatMap((item) =>
      item.kind === "text" && /more in the plan file/.test(item.text) ? [Number(/\d+/.exec(item.text)![0])] : [],
    )[0]!;
    expect(listed + more).toBe(30);
    expect(listed).toBeGreaterThan(4);
  });
});

describe("hostile names", () => {
  it.each(HOSTILE)("%j keeps its place", (name) => {
    const { base, setout, fixing } = samplePapers({
      title: name.repeat(3),
      postName: name,
      findings: [testFinding("stop", [3000, 1000], name, name)],
    });
    for (const sheet of [...base.sheets, ...setout.sheets, ...fixing.sheets]) {
      expect(collisions(sheet)).toEqual([]);
      for (const { item, box, view } of textsOf(sheet))
        if (!view) expect(box.x1, item.text).toBeLessThan(sheet.widthMm - 10);
    }
    expect(textWidthMm(name, 2.5)).toBeGreaterThan(0);
  });
});
