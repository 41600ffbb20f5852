import type { PlanRecord } from "../core/plan/record.ts";
import { sayer } from "../words/say.ts";
import type { Words } from "../words/words.ts";
import { effortOf, holesOf } from "./effort.ts";
import { type Block, listSheets } from "./page.ts";
import { rankedFindings } from "./ranked.ts";
import type { Paper } from "./sheet.ts";
import { chosenOf } from "./staking.ts";

/** Most kinds of finding on the page. */
const FINDINGS = 15;
/** A cost of preparation from spot levels is known to about this (common practice, no source). */
export const PREPARATION_RANGE = 0.25;

/**
 * The estimator's page. `firstLine` says which breaches are excused, or that none is; it stands before all else.
 * Up to 15 kinds of finding with their remedies where one sheet holds them all; else remedies for stops alone, then
 * fewer kinds, but every stop in any case. How many more there are, and where remedies stand, is said.
 */
export function summaryPaper(record: PlanRecord, words: Words, firstLine: string): Paper {
  const w = words.papers.summary;
  const stops = rankedFindings(record).filter(({ finding }) => finding.level === "stop").length;
  const sheetsFor = (shown: number, remedies: Remedies) =>
    listSheets(record, words, "summary", w.title, partsOf(record, words, firstLine, shown, remedies).map(blockOf));
  let sheets = sheetsFor(FINDINGS, "all");
  for (let shown = FINDINGS; sheets.length > 1 && shown >= Math.max(1, stops); shown--)
    sheets = sheetsFor(shown, "stops");
  return { name: "summary", title: w.title, sheets, dxf: false };
}
type Remedies = "all" | "stops";

function blockOf(part: Part): Block {
  if ("rows" in part)
    return {
      kind: "pairs",
      headMm: part.kind === "findings" ? 28 : 46,
      rows: part.rows,
      maxLines: 6,
      across: part.kind === "short" ? 2 : 1,
    };
  if (part.kind === "heading") return { kind: "heading", text: part.text };
  if (part.kind === "first") return { kind: "text", text: part.text, heightMm: 3, bold: true };
  if (part.kind === "strong") return { kind: "text", text: part.text, bold: true };
  return { kind: "text", text: part.text };
}

/** The same page as lines of plain text, no wider than `width` characters: for a terminal. */
export function summaryText(record: PlanRecord, words: Words, firstLine: string, width = 100): string[] {
  const lines: string[] = [];
  const parts = partsOf(record, words, firstLine, FINDINGS, "all");
  const widest = (findings: boolean): number =>
    Math.max(
      0,
      ...parts.flatMap((p) =>
        "rows" in p && (p.kind === "findings") === findings ? p.rows.map(([head]) => head.length) : [],
      ),
    );
  for (const part of parts) {
    if ("text" in part) lines.push(...(part.kind === "heading" ? ["", part.text] : wrapped(part.text, width)));
    else {
      const wide = widest(part.kind === "findings");
      for (const [head, said] of part.rows) {
        const body = wrapped(said, width - wide - 4);
        for (const [i, text] of body.entries()) lines.push(`  ${(i === 0 ? head : "").padEnd(wide)}  ${text}`);
      }
    }
  }
  return lines;
}

type Part =
  | { kind: "first" | "strong" | "text" | "heading"; text: string }
  | { kind: "short"; rows: [string, string][] }
  | { kind: "figures"; rows: [string, string][] }
  | { kind: "findings"; rows: [string, string][] };

function partsOf(record: PlanRecord, words: Words, firstLine: string, shown: number, remedies: Remedies): Part[] {
  const w = words.papers.summary;
  const verdict = record.surface.surface?.verdict ?? "unknown";
  return [
    { kind: "first", text: firstLine },
    { kind: "strong", text: w.verdict[verdict] },
    ...(record.site.drillingReleased ? [] : [{ kind: "strong" as const, text: words.papers.notReleased }]),
    { kind: "heading", text: w.figures },
    { kind: "short", rows: shortRows(record, words) },
    { kind: "figures", rows: figureRows(record, words) },
    { kind: "heading", text: w.why },
    { kind: "text", text: [...record.setout.reasons, ...record.bond.reasons].map(sayer(words).reason).join(" ") },
    { kind: "heading", text: w.findings },
    ...findingParts(record, words, shown, remedies),
    { kind: "heading", text: w.doors },
    { kind: "text", text: doorWords(record, words).join(" ") },
    { kind: "heading", text: w.cautions },
    { kind: "text", text: [...record.site.cautions.map((code) => w.caution[code]), w.defer].join(" ") },
    { kind: "heading", text: w.assumptions },
    { kind: "text", text: `${assumedWords(record, words)} ${w.hoursHow}` },
    { kind: "heading", text: w.exclusions },
    { kind: "text", text: w.excluded },
  ];
}

/** Figures of a word or two: two beside each other on paper. */
function shortRows(record: PlanRecord, words: Words): [string, string][] {
  const w = words.papers.summary;
  const { write } = words;
  const { bond, cutting, setout, survey, job } = record;
  const whole = (value: number): string => write.number(value, 0);
  const fieldM2 = setout.fieldAreaUm2 / 1e12;
  const laidM = bond.pieces.reduce((sum, piece) => sum + areaUm2(piece.region), 0) / 1e6 / job.board.width / 1000;
  return [
    [w.net, `${write.m2(setout.fieldAreaUm2 / 1e6)} m²`],
    [w.gross, `${write.m2(survey.areaMm2)} m²`],
    [w.rowsPieces, `${whole(setout.rows.length)}, ${whole(bond.pieces.length)}`],
    [w.holes, whole(holesOf(record))],
    [w.cutsLabel, w.cuts(whole(cutting.cuts), whole(cutting.rips))],
    [w.metres, `${write.number(metresCut(record), 1)} m`],
    [w.waste, `${write.m2(cutting.wasteUm2 / 1e6)} m²`],
    [
      w.weight,
      w.weightOf(whole(cutting.massKg), write.number(fieldM2 > 0 ? (laidM * job.board.mass) / fieldM2 : 0, 1)),
    ],
  ];
}

function figureRows(record: PlanRecord, words: Words): [string, string][] {
  const w = words.papers.summary;
  const { write } = words;
  const { cutting, fixing, takeoff, job } = record;
  const whole = (value: number): string => write.number(value, 0);
  const { start, seam, last, end } = fixing.counts;
  const effort = effortOf(record);
  return [
    [w.boardsLabel, w.boards(whole(cutting.boards.length), whole(cutting.boardsAtLeast))],
    [w.clips, w.clipsOf(whole(start), whole(seam), whole(last), whole(end))],
    [w.total, w.totalOf(write.money(takeoff.totalMinor, job.currency), takeoff.unpriced.length)],
    [w.preparation, preparationWords(record, words)],
    [w.hours, hoursWords(effort, words)],
  ];
}

function hoursWords(effort: ReturnType<typeof effortOf>, words: Words): string {
  const whole = (value: number): string => words.write.number(value, 0);
  return words.papers.summary.hoursOf(
    whole(effort.lowHours),
    whole(effort.highHours),
    whole(effort.lowDays),
    whole(effort.highDays),
  );
}

/** Cost as a range: the levels between the readings are not known. */
function preparationWords(record: PlanRecord, words: Words): string {
  const w = words.papers.summary;
  if (record.surface.surface === null) return w.noPreparation;
  const option = chosenOf(record);
  if (!option) return w.unprepared;
  const { currency } = record.job;
  if (option.grindMm3 === 0 && option.fillMm3 === 0) return w.nothingMoved;
  const money = (share: number): string => words.write.money(roundedMinor(option.costMinor * share), currency);
  return w.prepared(
    words.papers.stakes.optionWords[option.option],
    money(1),
    money(1 - PREPARATION_RANGE),
    money(1 + PREPARATION_RANGE),
    words.write.number(option.massKg, 0),
  );
}

/** Three figures are all a provisional cost can bear. */
export function roundedMinor(minor: number): number {
  let step = 1;
  while (minor / step >= 1000) step *= 10;
  return Math.round(minor / step) * step;
}

function findingParts(record: PlanRecord, words: Words, shown: number, remedies: Remedies): Part[] {
  const w = words.papers.summary;
  const ranked = rankedFindings(record);
  if (ranked.length === 0) return [{ kind: "text", text: w.noFindings }];
  const say = sayer(words).finding;
  const rows = ranked.slice(0, shown).map(({ finding, count, number }): [string, string] => {
    const said = say(finding);
    const place = finding.at && `${words.write.mm(finding.at[0])}, ${words.write.mm(finding.at[1])}`;
    const release = finding.releasedBy ? ` ${w.releasedBy[finding.releasedBy]}` : "";
    const remedy = remedies === "all" || finding.level === "stop" ? `${said.do}${release}` : "";
    return [`${w.levels[finding.level]} ${number}`, w.finding(said.says, remedy, count, place)];
  });
  const more = ranked.length - rows.length;
  const after = [
    ...(more > 0 ? [w.moreFindings(words.write.number(more, 0))] : []),
    ...(remedies === "stops" ? [w.remediesElsewhere] : []),
  ];
  return [{ kind: "findings", rows }, ...(after.length > 0 ? [{ kind: "text" as const, text: after.join(" ") }] : [])];
}

function doorWords(record: PlanRecord, words: Words): string[] {
  const w = words.papers.summary;
  const mm = (value: number | null): string | null => (value === null ? null : words.write.mm(value));
  return [
    w.rise(words.write.mm(record.site.riseMm)),
    ...record.site.doors.map((door) => {
      const step = door.stepAfterMm;
      return w.door(
        String(door.side + 1),
        mm(door.sillMm),
        mm(step === null ? null : Math.abs(step)),
        step !== null && step < 0,
        mm(door.leafClearMm),
      );
    }),
  ];
}

/** How many fields were left open, under what they belong to; the plan file lists each. */
function assumedWords(record: PlanRecord, words: Words): string {
  const w = words.papers.summary;
  const groups = new Map<string, number>();
  for (const path of record.defaultsUsed) {
    const group = path.split(".")[0]!;
    groups.set(group, (groups.get(group) ?? 0) + 1);
  }
  const { gaps, clips, cut } = record.job;
  const { write } = words;
  const values = w.values({
    side: write.mm1(record.setout.sideGapUm / 1000),
    end: write.mm1(gaps.end),
    edge: write.mm1(gaps.edge),
    clear: write.mm(clips.clearMax),
    between: clips.measure,
    kerf: write.mm1(cut.kerf),
  });
  if (groups.size === 0) return `${w.noAssumptions} ${values}`;
  return `${w.assumed([...groups].map(([group, count]) => `${group} ${count}`).join(", "))} ${values}`;
}

/** Metres of saw cut: board widths for ends, lengths of ripped edges. */
function metresCut(record: PlanRecord): number {
  const rips = record.bond.pieces.reduce(
    (sum, piece) => sum + (piece.edges.includes("ripped") ? piece.lengthUm : 0),
    0,
  );
  return (record.cutting.cuts * record.setout.boardWidthUm + rips) / 1e6;
}

function areaUm2(region: PlanRecord["bond"]["pieces"][number]["region"]): number {
  const ring = (points: readonly (readonly [number, number])[]): number => {
    const [u0, v0] = points[0]!;
    let twice = 0;
    for (let i = 1; i + 1 < points.length; i++) {
      const [u1, v1] = points[i]!;
      const [u2, v2] = points[i + 1]!;
      twice += (u1 - u0) * (v2 - v0) - (u2 - u0) * (v1 - v0);
    }
    return Math.abs(twice) / 2;
  };
  return ring(region.outer) - region.holes.reduce((sum, hole) => sum + ring(hole), 0);
}

function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, line];
}
