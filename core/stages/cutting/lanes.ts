import type { Job } from "../../job/job.ts";
import type { BondRecord, Piece } from "../bond/record.ts";
import { type CutSizes, canTurn, heightInBoard, type Unit, type UnitPart } from "./unit.ts";

interface Lane {
  at: "low" | "high" | "mid";
  yUm: number;
  widthUm: number;
  usedUm: number;
}

/**
 * Strips side by side: the longest strip left opens a shelf as long as itself, further strips fill lanes beside it, longest
 * first. A strip with one factory edge lies at that edge of the board (at the other one turned by 180 degrees, where the
 * board allows); a strip with none lies anywhere. O(strips * shelves).
 */
export function shelvesOf(job: Job, bond: BondRecord, strips: readonly number[], sizes: CutSizes): Unit[] {
  const order = strips
    .slice()
    .sort(
      (a, b) =>
        bond.pieces[b]!.lengthUm - bond.pieces[a]!.lengthUm ||
        bond.pieces[b]!.widthUm - bond.pieces[a]!.widthUm ||
        a - b,
    );
  const done = new Set<number>();
  const units: Unit[] = [];
  for (const index of order) {
    if (done.has(index)) continue;
    done.add(index);
    units.push(openShelf(job, bond, index, order, done, sizes));
  }
  return units;
}

function openShelf(
  job: Job,
  bond: BondRecord,
  index: number,
  order: readonly number[],
  done: Set<number>,
  sizes: CutSizes,
): Unit {
  const first = bond.pieces[index]!;
  const at = first.edges[1] !== "ripped" ? "high" : "low";
  const yUm = at === "high" ? sizes.boardWidthUm - first.widthUm : 0;
  const lanes: Lane[] = [{ at, yUm, widthUm: first.widthUm, usedUm: first.lengthUm }];
  const parts: UnitPart[] = [{ piece: index, xUm: 0, yUm, turned: false }];
  let freeLow = at === "low" ? first.widthUm + sizes.kerfUm : 0;
  let freeHigh = at === "high" ? yUm - sizes.kerfUm : sizes.boardWidthUm;
  let leastIndex = index;
  for (const other of order) {
    if (done.has(other)) continue;
    const piece = bond.pieces[other]!;
    const part = intoLane(job, piece, lanes, first.lengthUm, sizes) ?? newLane();
    if (part === null) continue;
    done.add(other);
    parts.push({ piece: other, ...part });
    leastIndex = Math.min(leastIndex, other);

    function newLane(): Omit<UnitPart, "piece"> | null {
      if (piece.widthUm > freeHigh - freeLow || piece.lengthUm > first.lengthUm) return null;
      for (const side of sidesOf(job, piece)) {
        if (side.at !== "mid" && lanes.some((l) => l.at === side.at)) continue;
        const y = side.at === "low" ? 0 : side.at === "high" ? sizes.boardWidthUm - piece.widthUm : freeLow;
        if (side.at === "high") freeHigh = y - sizes.kerfUm;
        else freeLow = y + piece.widthUm + sizes.kerfUm;
        lanes.push({ at: side.at, yUm: y, widthUm: piece.widthUm, usedUm: piece.lengthUm });
        return { xUm: 0, yUm: y, turned: side.turned };
      }
      return null;
    }
  }
  // Alone on its shelf a strip is cut where its own strip of the board has it.
  const alone = parts.length === 1;
  if (alone) parts[0]!.yUm = heightInBoard(first, sizes);
  return { lengthUm: first.lengthUm, parts, first: leastIndex, turnable: alone && canTurn(job, first), rises: [0, 0] };
}

/** A place after what already lies in a lane, or null. */
function intoLane(
  job: Job,
  piece: Piece,
  lanes: Lane[],
  lengthUm: number,
  sizes: CutSizes,
): Omit<UnitPart, "piece"> | null {
  for (const lane of lanes) {
    const xUm = lane.usedUm + sizes.kerfUm;
    if (xUm + piece.lengthUm > lengthUm || piece.widthUm > lane.widthUm) continue;
    const side = sidesOf(job, piece).find((s) => s.at === lane.at || s.at === "mid");
    if (side === undefined) continue;
    lane.usedUm = xUm + piece.lengthUm;
    const yUm = lane.at === "high" ? lane.yUm + lane.widthUm - piece.widthUm : lane.yUm;
    return { xUm, yUm, turned: side.turned };
  }
  return null;
}

/** Where in a cross-section a strip may lie, and whether it is turned there; "mid" is anywhere. */
function sidesOf(job: Job, piece: Piece): { at: Lane["at"]; turned: boolean }[] {
  const low = piece.edges[0] !== "ripped";
  const high = piece.edges[1] !== "ripped";
  if (!low && !high) return [{ at: "mid", turned: false }];
  const own: Lane["at"] = low ? "low" : "high";
  const sides: { at: Lane["at"]; turned: boolean }[] = [{ at: own, turned: false }];
  if (canTurn(job, piece)) sides.push({ at: own === "low" ? "high" : "low", turned: true });
  return sides;
}
