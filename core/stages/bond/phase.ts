import { toMm, toUm } from "../../base/units.ts";
import type { Job } from "../../job/job.ts";
import type { SetoutRecord } from "../setout/record.ts";
import { type Lattice, modulo, rowShift } from "./lattice.ts";

export interface PhaseChoice {
  phaseUm: number;
  reason: { code: string; data: Record<string, number | string> };
}
/** Spans longer than a board that lie alike on the lattice. */
interface Alike {
  u0: number;
  u1: number;
  shift: number;
  count: number;
  musts: { from: number; to: number }[];
  bars: { from: number; to: number }[];
}
interface PhaseCost {
  moved: number;
  boards: number;
  cuts: number;
  smallest: number;
  uneven: number;
  offset: number;
}

/** Spans whose ends agree within this are alike, um. */
const ALIKE_UM = 100;
/** Most phases judged; the longest and most frequent spans breed them. */
const MOST_PHASES = 160;
/** Phases nearer than this are one, um. */
const SAME_UM = 20;
/** A piece that should have just minPiece gets this much more, um, so that rounding in other rows takes nothing off. */
const SPARE_UM = 1000;
/** Up to this many cut pieces are packed for the estimate; beyond, material and halves bound it. */
const MOST_PACKED = 160;

/**
 * The lattice's phase: the given shift, or the best of a sweep over the places where something changes (a full board at a
 * span's end, just minPiece there, half a board, a joint or a board in the middle, a joint at a post). Judged on the rows'
 * summaries alone: joints that would have to move, boards, cuts, the smallest end piece, evenness.
 */
export function choosePhase(job: Job, setout: SetoutRecord, lattice: Lattice): PhaseChoice {
  const row0 = setout.rows[0];
  const least = row0 === undefined || row0.spans.length === 0 ? 0 : setout.spans[row0.spans[0]!]!.u0Um;
  if (job.bond.shift !== null) {
    const phaseUm = Math.round(least + toUm(job.bond.shift) - lattice.endUm / 2);
    return { phaseUm, reason: { code: "shiftGiven", data: { shiftMm: job.bond.shift } } };
  }
  const groups = alike(setout, lattice);
  if (groups.length === 0) {
    return { phaseUm: least + lattice.boardUm, reason: { code: "noJoints", data: { boardMm: toMm(lattice.boardUm) } } };
  }
  const short = setout.spans.filter((s) => s.u1Um - s.u0Um <= lattice.boardUm).map((s) => s.u1Um - s.u0Um);
  let best: { phase: number; cost: PhaseCost } | null = null;
  const phases = breed(groups, lattice, least);
  const moves = phases.map((phase) => movedAt(groups, lattice, phase));
  const fewest = Math.min(...moves);
  phases.forEach((phase, i) => {
    if (moves[i]! > fewest) return;
    const cost = costOf(groups, short, lattice, toUm(job.cut.kerf), phase, moves[i]!, least);
    if (best === null || compare(cost, best.cost) < 0) best = { phase, cost };
  });
  const found = best as { phase: number; cost: PhaseCost } | null;
  const phase = found!.phase;
  const first = modulo(phase - least, lattice.pitchUm);
  return {
    phaseUm: least + first,
    reason: {
      code: "shiftChosen",
      data: {
        shiftMm: toMm(first + lattice.endUm / 2),
        moved: found!.cost.moved,
        smallestMm: -found!.cost.smallest,
        boards: found!.cost.boards,
      },
    },
  };
}

function compare(a: PhaseCost, b: PhaseCost): number {
  return (
    a.moved - b.moved ||
    a.boards - b.boards ||
    a.cuts - b.cuts ||
    a.smallest - b.smallest ||
    a.uneven - b.uneven ||
    a.offset - b.offset
  );
}

function alike(setout: SetoutRecord, lattice: Lattice): Alike[] {
  const groups = new Map<string, Alike>();
  for (const span of setout.spans) {
    if (span.u1Um - span.u0Um <= lattice.boardUm) continue;
    const shift = rowShift(lattice, span.row);
    const plain = span.mustJoint.length === 0 && span.noJoint.length === 0;
    const key = plain ? `${Math.round(span.u0Um / ALIKE_UM)}|${Math.round(span.u1Um / ALIKE_UM)}|${shift}` : "";
    const known = plain ? groups.get(key) : undefined;
    if (known) known.count++;
    else {
      groups.set(plain ? key : `own ${groups.size}`, {
        u0: span.u0Um,
        u1: span.u1Um,
        shift,
        count: 1,
        musts: span.mustJoint,
        bars: span.noJoint,
      });
    }
  }
  return [...groups.values()];
}

/** Phases at which something changes, as places of row 0's joint, ascending within one pitch from row 0's least u. */
function breed(groups: readonly Alike[], lattice: Lattice, least: number): number[] {
  const { pitchUm, boardUm, endUm, minPieceUm } = lattice;
  const out: number[] = [];
  const near = new Set<number>();
  const heavy = [...groups].sort(
    (a, b) => b.count * Math.round((b.u1 - b.u0) / 1e5) - a.count * Math.round((a.u1 - a.u0) / 1e5) || a.u0 - b.u0,
  );
  const add = (a: number, shift: number) => {
    const phase = modulo(Math.round(a - shift - least), pitchUm);
    const cell = Math.floor(phase / SAME_UM);
    if (near.has(cell) || out.length >= MOST_PHASES) return;
    out.push(phase);
    near
      .add(cell)
      .add(cell - 1)
      .add(cell + 1);
  };
  for (const g of heavy) {
    if (out.length >= MOST_PHASES) break;
    const middle = (g.u0 + g.u1) / 2;
    for (const a of [
      g.u0 + boardUm,
      g.u1 - boardUm - endUm,
      g.u0 + minPieceUm + SPARE_UM,
      g.u1 - endUm - minPieceUm - SPARE_UM,
      g.u0 + wholeMm(boardUm / 2),
      g.u1 - endUm - wholeMm(boardUm / 2),
      g.u0 + wholeMm(middle - endUm / 2 - g.u0),
      g.u0 + wholeMm(middle + boardUm / 2 - g.u0),
      g.u0 + wholeMm(boardUm / 3),
      g.u1 - endUm - wholeMm(boardUm / 3),
    ]) {
      add(a, g.shift);
    }
    for (const must of g.musts) {
      add(must.from - endUm / 2 + SPARE_UM, g.shift);
      add((must.from + must.to) / 2 - endUm / 2, g.shift);
      add(must.to - endUm / 2 - SPARE_UM, g.shift);
    }
  }
  return out.sort((a, b) => a - b).map((a) => a + least);
}

function wholeMm(um: number): number {
  return Math.round(um / 1000) * 1000;
}

/** Row ends and posts at which the lattice would not do. */
function movedAt(groups: readonly Alike[], lattice: Lattice, phase: number): number {
  const { pitchUm, endUm, minPieceUm } = lattice;
  const short = minPieceUm + endUm;
  let moved = 0;
  for (const g of groups) {
    const at = phase + g.shift;
    const left = modulo(at - (g.u0 - endUm), pitchUm);
    const right = modulo(g.u1 - at, pitchUm);
    if (left > 0 && left < short) moved += g.count;
    if (right > 0 && right < short) moved += g.count;
    for (const must of g.musts) {
      const reach = modulo(must.to - endUm / 2 - at, pitchUm);
      if (reach > must.to - must.from) moved += g.count;
    }
    for (const bar of g.bars) {
      const reach = modulo(bar.to - endUm / 2 - at, pitchUm);
      if (reach > 0 && reach < bar.to - bar.from) moved += g.count;
    }
  }
  return moved;
}

function costOf(
  groups: readonly Alike[],
  short: readonly number[],
  lattice: Lattice,
  kerf: number,
  phase: number,
  moved: number,
  least: number,
): PhaseCost {
  const { pitchUm, endUm, boardUm, minPieceUm } = lattice;
  const cut: number[] = [];
  const bound = { sum: 0, long: 0 };
  let pieces = 0;
  let cuts = 0;
  const add = (length: number, count: number) => {
    pieces += count;
    if (length < boardUm) cuts += count;
    bound.sum += Math.min(length, boardUm) * count + kerf * count;
    if (length * 2 + kerf > boardUm) bound.long += count;
    if (pieces <= MOST_PACKED) for (let i = 0; i < count; i++) cut.push(length);
  };
  for (const length of short) add(length, 1);
  let whole = 0;
  let smallest = boardUm;
  let uneven = 0;
  for (const g of groups) {
    const at = phase + g.shift;
    let left = modulo(at - (g.u0 - endUm), pitchUm) - endUm;
    let right = modulo(g.u1 - at, pitchUm) - endUm;
    if (left <= -endUm) left = boardUm;
    if (right <= -endUm) right = boardUm;
    left = Math.max(left, minPieceUm);
    right = Math.max(right, minPieceUm);
    whole += Math.max(0, Math.round((g.u1 - g.u0 - left - right - endUm) / pitchUm)) * g.count;
    add(left, g.count);
    add(right, g.count);
    smallest = Math.min(smallest, left, right);
    uneven += Math.abs(left - right) * g.count;
  }
  const packed =
    pieces <= MOST_PACKED
      ? boardsFor(cut, boardUm, kerf)
      : Math.max(Math.ceil(bound.sum / (boardUm + kerf)), bound.long);
  return {
    moved,
    boards: whole + packed,
    cuts,
    smallest: -Math.round(smallest / 1000),
    uneven: Math.round(uneven / 1e5),
    offset: modulo(phase - least, pitchUm),
  };
}

/** Boards for the cut pieces: best fit, longest first. */
function boardsFor(lengths: readonly number[], boardUm: number, kerf: number): number {
  const rest: number[] = [];
  for (const length of [...lengths].sort((a, b) => b - a)) {
    let best = -1;
    for (let i = 0; i < rest.length; i++) {
      if (rest[i]! >= length && (best < 0 || rest[i]! < rest[best]!)) best = i;
    }
    if (best < 0) rest.push(boardUm - length - kerf);
    else rest[best] = rest[best]! - length - kerf;
  }
  return rest.length;
}
