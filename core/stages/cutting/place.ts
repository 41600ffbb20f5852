import { TOLERANCE } from "../../base/tolerances.ts";
import type { Ring } from "../../geometry/frame.ts";
import type { BondRecord } from "../bond/record.ts";
import { gapBetween, leftRise, type Row, rightRise } from "./chain.ts";
import type { Part } from "./record.ts";
import type { CutSizes, Unit, UnitPart } from "./unit.ts";

/** One board as cut, before it has its number. */
export interface Cut {
  lengthUm: number;
  parts: Part[];
  offcuts: { at: [number, number]; size: [number, number] }[];
  cuts: number;
  rips: number;
  /** Least piece index on it. */
  first: number;
}
interface Block {
  units: { unit: number; turned: boolean }[];
  turnable: boolean;
}
/** Ends that differ by no more are of one direction; a gap wider by no more is one cut. */
const SAME_CUT_UM = TOLERANCE.sameCutMm * 1000;
/** A part that ends this near its board's end needs no cut there: half an end gap was rounded. */
const END_UM = 1;
type Ends = ["factory" | "cut", "factory" | "cut"];

/**
 * Lays a board's units out along it. A unit that wants a factory end gets one of the board's two ends where it can; what is
 * left over lies in one length before the unit at the right end, or at the end. Offcuts at least `keepUm` long are listed.
 */
export function placeRow(
  bond: BondRecord,
  units: readonly Unit[],
  row: Row,
  lengthUm: number,
  keepUm: number,
  sizes: CutSizes,
  atJoint: AtJoint,
): Cut {
  const blocks: Block[] = row.square.map((unit) => ({
    units: [{ unit, turned: false }],
    turnable: units[unit]!.turnable,
  }));
  if (row.chain.length > 0)
    blocks.push({ units: row.chain, turnable: row.chain.every((c) => units[c.unit]!.turnable) });
  const left = takeEnd(blocks, (b, turned) => wants(bond, units, b, turned, 0, atJoint));
  const right = takeEnd(blocks, (b, turned) => wants(bond, units, b, turned, 1, atJoint));
  const line = [...(left === null ? [] : [left]), ...blocks, ...(right === null ? [] : [right])].flatMap(
    (b) => b.units,
  );
  const xs: number[] = [];
  let x = 0;
  line.forEach((it, k) => {
    if (k > 0)
      x += gapBetween(
        rightRise(units[line[k - 1]!.unit]!, line[k - 1]!.turned),
        leftRise(units[it.unit]!, it.turned),
        sizes,
      );
    xs.push(x);
    x += units[it.unit]!.lengthUm;
  });
  const over = lengthUm - x;
  const shift = right === null ? line.length : line.length - right.units.length;
  for (let k = shift; k < line.length; k++) xs[k]! += over;
  return cutUp(bond, units, line, xs, over, shift, lengthUm, keepUm, sizes);
}

/** Takes out the first block that can be given a factory end here, turned if it must be; ends at a joint go before ends at a wall. */
function takeEnd(blocks: Block[], wanted: (block: Block, turned: boolean) => 0 | 1 | 2): Block | null {
  for (const rank of [2, 1])
    for (const turned of [false, true])
      for (let k = 0; k < blocks.length; k++) {
        const block = blocks[k]!;
        if ((turned && !block.turnable) || wanted(block, turned) !== rank) continue;
        blocks.splice(k, 1);
        return turned ? reversed(block) : block;
      }
  return null;
}

function reversed(block: Block): Block {
  return { turnable: true, units: block.units.map((u) => ({ unit: u.unit, turned: !u.turned })).reverse() };
}

/** Whether a piece at this end of the block asks for a factory end there: 2 at a joint, where the eye falls, 1 at a wall. */
function wants(
  bond: BondRecord,
  units: readonly Unit[],
  block: Block,
  turned: boolean,
  end: 0 | 1,
  atJoint: AtJoint,
): 0 | 1 | 2 {
  const atEnd = block.units[end === (turned ? 1 : 0) ? 0 : block.units.length - 1]!;
  const unit = units[atEnd.unit]!;
  let rank: 0 | 1 | 2 = 0;
  for (const p of unit.parts) {
    const isTurned = (p.turned ? 1 : 0) ^ (atEnd.turned ? 1 : 0) ^ (turned ? 1 : 0);
    const reaches = end === 0 ? p.xUm === 0 : p.xUm + bond.pieces[p.piece]!.lengthUm === unit.lengthUm;
    const own = isTurned ? 1 - end : end;
    if (!reaches || bond.pieces[p.piece]!.ends[own] !== "factory") continue;
    if (atJoint[own]![p.piece]) return 2;
    rank = 1;
  }
  return rank;
}

/** Which pieces have a joint at their left (0) and right (1) end. */
export type AtJoint = readonly [left: readonly boolean[], right: readonly boolean[]];
export function jointEnds(bond: BondRecord): AtJoint {
  const left = new Array<boolean>(bond.pieces.length).fill(false);
  const right = new Array<boolean>(bond.pieces.length).fill(false);
  for (const joint of bond.joints) {
    right[joint.left] = true;
    left[joint.right] = true;
  }
  return [left, right];
}

function cutUp(
  bond: BondRecord,
  units: readonly Unit[],
  line: readonly { unit: number; turned: boolean }[],
  xs: readonly number[],
  over: number,
  shift: number,
  lengthUm: number,
  keepUm: number,
  sizes: CutSizes,
): Cut {
  const cut: Cut = { lengthUm, parts: [], offcuts: [], cuts: 0, rips: 0, first: Number.POSITIVE_INFINITY };
  line.forEach((it, k) => {
    const unit = units[it.unit]!;
    for (const p of lying(bond, unit, it.turned, sizes)) {
      cut.parts.push(partOf(bond, p.piece, xs[k]! + p.xUm, p.yUm, p.turned));
      cut.first = Math.min(cut.first, p.piece);
    }
    const startsSquare = leftRise(unit, it.turned) === 0;
    const before = k > 0 ? line[k - 1]! : null;
    // The left end: shared with the neighbour's cut where both are a kerf apart and of one direction, else its own.
    if (before === null ? xs[0]! > END_UM || !startsSquare : true) {
      const shared =
        before !== null &&
        !(k === shift && over > SAME_CUT_UM) &&
        Math.abs(rightRise(units[before.unit]!, before.turned) - leftRise(unit, it.turned)) <= SAME_CUT_UM;
      cut.cuts += before === null ? 1 : shared ? 1 : 2;
    }
    cut.cuts += insideCuts(bond, unit);
    cut.rips += ripsOf(bond, unit, sizes);
    listOffcuts(bond, { ...unit, parts: lying(bond, unit, it.turned, sizes) }, xs[k]!, keepUm, sizes, cut.offcuts);
  });
  const last = line[line.length - 1]!;
  const ends = xs[xs.length - 1]! + units[last.unit]!.lengthUm;
  if (ends < lengthUm - END_UM || rightRise(units[last.unit]!, last.turned) !== 0) cut.cuts++;
  // The rest between `shift` and its left neighbour, or at the board's end; a kerf is lost on each side that is cut.
  if (over > 0) {
    const from = shift === 0 ? 0 : xs[shift - 1]! + units[line[shift - 1]!.unit]!.lengthUm + sizes.kerfUm;
    const to = shift === line.length ? lengthUm : xs[shift]! - sizes.kerfUm;
    if (to - from >= keepUm && to > from) cut.offcuts.push({ at: [from, 0], size: [to - from, sizes.boardWidthUm] });
  }
  return cut;
}

/** A unit's parts as they lie, turned by 180 degrees within the unit's box where the unit is. */
function lying(bond: BondRecord, unit: Unit, turned: boolean, sizes: CutSizes): UnitPart[] {
  if (!turned) return unit.parts;
  return unit.parts.map((p) => {
    const { lengthUm, widthUm } = bond.pieces[p.piece]!;
    return {
      piece: p.piece,
      xUm: unit.lengthUm - p.xUm - lengthUm,
      yUm: sizes.boardWidthUm - p.yUm - widthUm,
      turned: !p.turned,
    };
  });
}

/** A piece at its place in the board's frame. */
function partOf(bond: BondRecord, index: number, xUm: number, yUm: number, turned: boolean): Part {
  const piece = bond.pieces[index]!;
  const ring: Ring | null = piece.plain
    ? null
    : piece.region.outer.map(([u, v]) =>
        turned ? [xUm + piece.u1Um - u, yUm + piece.v1Um - v] : [xUm + u - piece.u0Um, yUm + v - piece.v0Um],
      );
  return { piece: index, at: [xUm, yUm], size: [piece.lengthUm, piece.widthUm], turned, ring };
}

/** Saw cuts across within a shelf: every strip that ends before the shelf does, once. */
function insideCuts(bond: BondRecord, unit: Unit): number {
  let n = 0;
  for (const p of unit.parts) if (p.xUm + bond.pieces[p.piece]!.lengthUm < unit.lengthUm) n++;
  return n;
}

/** Saw cuts along: one at each side of a lane that is not the board's edge; neighbours a kerf apart share it. */
function ripsOf(bond: BondRecord, unit: Unit, sizes: CutSizes): number {
  const sides = new Set<number>();
  for (const p of unit.parts) {
    const top = p.yUm + bond.pieces[p.piece]!.widthUm;
    if (p.yUm > 0) sides.add(p.yUm);
    if (top < sizes.boardWidthUm) sides.add(top + sizes.kerfUm);
  }
  return sides.size;
}

/** Strips left beside the parts of a shelf over its whole length: what nobody has taken between two lanes or beside one. */
function listOffcuts(
  bond: BondRecord,
  unit: Unit,
  xUm: number,
  keepUm: number,
  sizes: CutSizes,
  out: Cut["offcuts"],
): void {
  if (unit.lengthUm < keepUm) return;
  const lanes = unit.parts.map((p): [number, number] => [p.yUm, p.yUm + bond.pieces[p.piece]!.widthUm]);
  lanes.sort((a, b) => a[0] - b[0]);
  let from = 0;
  for (const [low, high] of [...lanes, [sizes.boardWidthUm + sizes.kerfUm, 0]] as [number, number][]) {
    const to = low - sizes.kerfUm;
    // Narrower than 20 mm is saw waste.
    if (to - from >= 20_000) out.push({ at: [xUm, from], size: [unit.lengthUm, to - from] });
    from = Math.max(from, high + sizes.kerfUm);
  }
}

/** Ends as they are cut in fact: a piece keeps the factory end it asked for only where its part lies at the board's end. */
export function endsOf(bond: BondRecord, parts: readonly Part[], lengthUm: number, out: Ends[]): void {
  for (const part of parts) {
    const piece = bond.pieces[part.piece]!;
    const atStart = part.at[0] === 0;
    const atEnd = part.at[0] + part.size[0] >= lengthUm - END_UM;
    const low = part.turned ? atEnd : atStart;
    const high = part.turned ? atStart : atEnd;
    out[part.piece] = [
      low && piece.ends[0] === "factory" ? "factory" : "cut",
      high && piece.ends[1] === "factory" ? "factory" : "cut",
    ];
  }
}
