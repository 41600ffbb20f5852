import { toSite } from "../../../../core/geometry/frame.ts";
import type { PlanRecord } from "../../../../core/plan/record.ts";
import { line, mark, stroke } from "../../../../papers/ink.ts";
import type { Item, Pt } from "../../../../papers/sheet.ts";

/** Where the pieces, clips, screws or trims of a take-off item lie on the drawing; none for what has no place (primer, bits). */
export function placesOf(record: PlanRecord, item: string): Item[] {
  const { bond, cutting, fixing, setout, takeoff } = record;
  const { frame } = setout;
  const at = (uUm: number, vUm: number): Pt => toSite(frame, uUm, vUm);
  if (item.startsWith("board-")) {
    const lengthUm = Number(item.slice("board-".length)) * 1000;
    const boards = new Set(cutting.boards.filter((board) => board.lengthUm === lengthUm));
    return bond.pieces
      .filter((_, i) => boards.has(cutting.boards[cutting.boardOf[i]!]!))
      .map((piece) => ({
        kind: "region",
        layer: "boards",
        rings: [piece.region.outer, ...piece.region.holes].map((ring) => ring.map(([u, v]) => at(u, v))),
        stroke: stroke("thick", "solid", "accent"),
        fill: null,
      }));
  }
  // Marks of holes stay off while drilling is not released, here too.
  const released = record.site.drillingReleased;
  const clips = (wanted: (i: number) => boolean): Item[] =>
    released
      ? fixing.clips.flatMap((clip, i) =>
          wanted(i) ? [mark("clips", at(clip.uUm, clip.vUm), `clip-${clip.kind}`, 3.4, frame.angleDeg, "accent")] : [],
        )
      : [];
  if (item.startsWith("clip-")) return clips((i) => `clip-${fixing.clips[i]!.kind}` === item);
  if (item.startsWith("fixing-")) {
    const depth = Number(item.slice("fixing-".length));
    return clips((i) => takeoff.depthsMm[i] === depth);
  }
  if (item === "screw")
    return fixing.screws.map((screw) =>
      mark("screws", at(screw.uUm, screw.vUm), "screw", 3.4, frame.angleDeg, "accent"),
    );
  if (/^trim-\d/.test(item))
    return takeoff.trims.flatMap(({ parts }) =>
      parts.map((part) => line("trims", part.from, part.to, stroke("thick", "solid", "accent"))),
    );
  return [];
}
