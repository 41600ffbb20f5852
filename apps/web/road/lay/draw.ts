import { toSite } from "../../../../core/geometry/frame.ts";
import type { PlanRecord } from "../../../../core/plan/record.ts";
import { polygon, stroke } from "../../../../papers/ink.ts";
import type { Item, Pt } from "../../../../papers/sheet.ts";

/** What lies, hatched; the row that is laid now, in a thick line round all of it (the last item). */
export function drawRow(record: PlanRecord, row: number, laid: ReadonlySet<string>): Item[] {
  const { bond, setout } = record;
  const at = ([u, v]: readonly [number, number]): Pt => toSite(setout.frame, u, v);
  const items: Item[] = bond.pieces
    .filter(({ id }) => laid.has(id))
    .map((piece) => ({
      kind: "region",
      layer: "boards",
      rings: [piece.region.outer, ...piece.region.holes].map((ring) => ring.map(at)),
      stroke: null,
      fill: { hatchDeg: setout.frame.angleDeg, spacingMm: 1.1, tone: "grey" },
    }));
  const members = bond.pieces.filter((piece) => piece.row === row);
  if (members.length === 0) return items;
  const u0 = Math.min(...members.map((piece) => piece.u0Um));
  const u1 = Math.max(...members.map((piece) => piece.u1Um));
  const v0 = Math.min(...members.map((piece) => piece.v0Um));
  const v1 = Math.max(...members.map((piece) => piece.v1Um));
  const corners: [number, number][] = [
    [u0, v0],
    [u1, v0],
    [u1, v1],
    [u0, v1],
  ];
  return [...items, polygon("boards", corners.map(at), stroke("thick", "solid", "accent"))];
}
