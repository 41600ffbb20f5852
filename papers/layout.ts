import type { PlanRecord } from "../core/plan/record.ts";
import type { DrawingKind } from "../words/drawing.ts";
import type { Numbered } from "./drawing/findings.ts";
import type { Tongue } from "./drawing/look.ts";
import { type Area, type Draw, type Fitted, fitAt, fitView } from "./fit.ts";
import { BANNER_MM, BAR_MM, BLOCK_MM, frameArea, type Size } from "./frame.ts";
import { paragraph } from "./ink.ts";
import { legendBlock, type Sign, statesBlock } from "./margin.ts";
import type { Pt } from "./sheet.ts";

/** One drawing of a paper: what is drawn, and what its view is called where a sheet has several. */
export interface Picture {
  name: string | null;
  draw: Draw;
}
export interface Composition {
  kind: DrawingKind;
  /** File-safe. */
  name: string;
  pictures: Picture[];
  /** Columns of signs. */
  signs: (scale: number) => Sign[][];
  findings: { shown: Numbered[]; more: number };
  /** Lines above the findings: the drawing's own figures. */
  facts: string[];
  /** Instead of a drawing's figures: said large below it (no levels taken, positions left off). */
  remark: string | null;
  /** Height on site, mm, of what must be told apart: where the whole drawing shows it under 4 mm, parts at a larger scale follow. Null: none. */
  detailMm: number | null;
  proof: string | null;
}

/** Width of the column beside a drawing, mm, and the least a drawing keeps free around it. */
export const COLUMN_MM = { A4: 88, A3: 112, A2: 130, A1: 150 } as const;
const HEAD_MM = 7;
const PAD_MM = 3;
const REMARK_MM = 17;

export interface Page {
  fitted: { picture: Picture; area: Area; fitted: Fitted }[];
}

/** A3 by choice, A4 where that loses no scale and its column holds what it must, larger only where the scale would be coarser than 1:100. */
export function chooseSheets(
  record: PlanRecord,
  tongue: Tongue,
  plan: Composition,
  site: readonly Pt[],
  released: boolean,
): { size: Size; pages: Page[] } {
  const tries = (["A4", "A3"] as const).map((size) => ({ size, pages: pagesOn(size, plan, site, released) }));
  const [a4, a3] = [tries[0]!, tries[1]!];
  const small = coarsest(a4.pages);
  const enough = small <= coarsest(a3.pages) && a4.pages.length <= a3.pages.length && small <= 50;
  if (enough && columnFits(record, tongue, plan, small, "A4")) return a4;
  if (coarsest(a3.pages) <= 100) return a3;
  for (const size of ["A2", "A1"] as const) {
    const pages = pagesOn(size, plan, site, released);
    if (coarsest(pages) <= 100 || size === "A1") return coarsest(pages) < coarsest(a3.pages) ? { size, pages } : a3;
  }
  return a3;
}

function coarsest(pages: readonly Page[]): number {
  return Math.max(...pages.flatMap((page) => page.fitted.map((one) => one.fitted.scale)));
}

function pagesOn(size: Size, plan: Composition, site: readonly Pt[], released: boolean): Page[] {
  const area = drawingArea(size, released, plan.remark !== null);
  const single = plan.pictures.map((picture): Page => {
    const inner = below(area, picture.name === null ? 0 : HEAD_MM);
    return { fitted: [{ picture, area: inner, fitted: fitView(picture.draw, site, inner) }] };
  });
  if (plan.pictures.length < 2) return single;
  const scale = coarsest(single);
  for (const split of [splitDown, splitAcross]) {
    const parts = split(area, plan.pictures.length);
    const turn = single[0]!.fitted[0]!.fitted.view.turnDeg;
    const fitted = plan.pictures.map((picture, i) => {
      const inner = below(parts[i]!, HEAD_MM);
      return { picture, area: inner, fitted: fitAt(picture.draw, site, inner, scale, turn) };
    });
    if (fitted.every((one) => one.fitted !== null)) return [{ fitted: fitted as Page["fitted"] }];
  }
  return single;
}

function splitDown(area: Area, parts: number): Area[] {
  const height = area.height / parts;
  return Array.from({ length: parts }, (_, i) => ({ ...area, y: area.y + (parts - 1 - i) * height, height }));
}
function splitAcross(area: Area, parts: number): Area[] {
  const width = area.width / parts;
  return Array.from({ length: parts }, (_, i) => ({ ...area, x: area.x + i * width, width }));
}
function below(area: Area, head: number): Area {
  return { ...area, height: area.height - head };
}

/** Left of the column, above the check bar and a remark, under the banner. */
export function drawingArea(size: Size, released: boolean, remarked: boolean): Area {
  const frame = frameArea(size);
  const top = released ? 0 : BANNER_MM + 1;
  const foot = BAR_MM + 4 + (remarked ? REMARK_MM : 0);
  return {
    x: frame.x + PAD_MM,
    y: frame.y + foot,
    width: frame.width - COLUMN_MM[size] - 2 * PAD_MM,
    height: frame.height - foot - top - PAD_MM,
  };
}

/** True where all that must stand in the column does, with room for a finding or two. */
function columnFits(record: PlanRecord, tongue: Tongue, plan: Composition, scale: number, size: Size): boolean {
  const width = COLUMN_MM[size] - 6;
  const blocks = [
    statesBlock(record, tongue, plan.proof, 0, 0, width),
    legendBlock(plan.signs(scale), tongue, 0, 0, width),
  ];
  const facts = plan.facts.reduce(
    (sum, fact) => sum + paragraph([0, 0], fact, width, { heightMm: 3, bold: true }, 2).heightMm + 2,
    0,
  );
  const findings = plan.findings.shown.length === 0 ? 12 : 40;
  return (
    blocks.reduce((sum, block) => sum + block.heightMm + 3, facts + findings) <= frameArea(size).height - BLOCK_MM - 7
  );
}
