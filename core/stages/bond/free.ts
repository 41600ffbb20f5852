import type { Finding } from "../../base/finding.ts";
import { toUm } from "../../base/units.ts";
import type { Job } from "../../job/job.ts";
import { boardStocks } from "../../job/stocks.ts";
import { PACKING_LIMITS, packLengths } from "../../solve/packing.ts";
import type { SetoutRecord } from "../setout/record.ts";
import { beamJoints } from "./free-beam.ts";
import { freeFindings } from "./free-findings.ts";
import { latticeJoints } from "./free-lattice.ts";
import { freeLocked } from "./free-locked.ts";
import { practiceJoints } from "./free-practice.ts";
import { type FreeRules, freeRules, pieceLengths } from "./free-rows.ts";
import { longestBoardUm } from "./lattice.ts";
import type { Locked } from "./locked.ts";

export interface FreeJoints {
  /** For each span the middles of its joints, ascending, whole micrometres. */
  joints: number[][];
  findings: Finding[];
  reasons: { code: string; data: Record<string, number | string> }[];
}
interface Tried {
  way: "practice" | "half" | "search";
  joints: number[][];
  breaches: number;
  cost: number;
  boards: number;
  cuts: number;
  kinds: number;
}

/**
 * Joints chosen together with the cutting. Three ways are tried and packed by the same solver: each row from the last row's
 * offcut (practice), half bond, and a beam search over the pile of offcuts and the first piece of each row. The one with the
 * fewest broken rules, then least cost of boards, cuts and different lengths stands: so never worse than practice.
 * Legal is: pieces with a joint at least `minPiece`, none longer than the longest board, joints of neighbouring rows at
 * least `stagger` apart, a joint in every `mustJoint`, none in a `noJoint`; a span that one board covers is one piece.
 * Where that cannot be kept, the least breach is taken and a finding names it. Locked rows keep their joints in every way.
 */
export function freeJoints(job: Job, setout: SetoutRecord, locked: Locked | null = null): FreeJoints {
  const cells = setout.spans.length;
  // Few rows bear a wide search; many rows average out.
  const width = cells <= 80 ? 20 : cells <= 400 ? 16 : 8;
  let best: Tried | null = null;
  let practice: Tried | null = null;
  for (const lengthUm of mainLengths(job)) {
    const rules = freeRules(job, lengthUm);
    if (locked !== null && locked.byRow.size > 0) rules.locked = freeLocked(locked, rules.endUm);
    const ways: [Tried["way"], number[][]][] = [["practice", practiceJoints(setout, rules)]];
    for (const joints of beamJoints(setout, rules, { width, alike: 3, pool: 8 })) ways.push(["search", joints]);
    for (const joints of latticeJoints(setout, rules)) ways.push(["half", joints]);
    for (const [way, joints] of ways) {
      const tried = judged(job, setout, rules, way, joints);
      if (way === "practice" && (practice === null || better(tried, practice))) practice = tried;
      if (best === null || better(tried, best)) best = tried;
    }
  }
  const rules = freeRules(job, mainLengths(job)[0]!);
  return {
    joints: best!.joints,
    findings: freeFindings(setout, best!.joints, rules),
    reasons: [
      {
        code: "freeJoints",
        data: {
          way: best!.way,
          boards: best!.boards,
          cuts: best!.cuts,
          practiceBoards: practice!.boards,
          practiceCuts: practice!.cuts,
        },
      },
    ],
  };
}

/** Lengths rows may mainly be laid from, none longer than every row can count on: the cheapest by length first, at most three. */
function mainLengths(job: Job): number[] {
  const priced = job.board.lengths.some((l) => l.price > 0);
  const rate = (l: { length: number; price: number }): number => (priced ? l.price / l.length : 1);
  const longest = longestBoardUm(job);
  const counted = job.board.lengths.filter((l) => toUm(l.length) <= longest);
  const order = counted.sort((a, b) => rate(a) - rate(b) || b.length - a.length);
  return [...new Set(order.map((l) => toUm(l.length)))].slice(0, 3);
}

function judged(job: Job, setout: SetoutRecord, rules: FreeRules, way: Tried["way"], joints: number[][]): Tried {
  const kinds = new Map<number, number>();
  const strips: { length: number; width: number }[] = [];
  setout.spans.forEach((span, s) => {
    const width = span.v1Um - span.v0Um;
    for (const piece of pieceLengths(span, joints[s]!, rules.endUm)) {
      const length = Math.min(piece, rules.longestUm);
      if (width + rules.kerfUm < setout.boardWidthUm) strips.push({ length, width });
      else kinds.set(length, (kinds.get(length) ?? 0) + 1);
    }
  });
  const turns = job.board.reversible && (job.board.grooves === "both" || job.board.grooves === "none");
  for (const length of turns ? sharedLengths(strips, setout.boardWidthUm - rules.kerfUm) : strips.map((s) => s.length))
    kinds.set(length, (kinds.get(length) ?? 0) + 1);
  const { stocks } = boardStocks(job);
  const items = [...kinds].map(([length, count]) => ({ length, count })).sort((a, b) => b.length - a.length);
  const packing = packLengths(stocks, items, rules.kerfUm, {
    ...PACKING_LIMITS,
    lpItems: 40,
    rounds: 4,
    nodes: 2_000,
    allNodes: 60_000,
    exact: 0,
  });
  let boards = 0;
  let cuts = 0;
  for (const bin of packing.bins) {
    boards += bin.times;
    let n = 0;
    let used = -rules.kerfUm;
    for (const [item, times] of bin.counts) {
      n += times;
      used += times * (items[item]!.length + rules.kerfUm);
    }
    cuts += bin.times * (used === stocks[bin.stock]!.length ? n - 1 : n);
  }
  const breaches = freeFindings(setout, joints, rules).length;
  return { way, joints, breaches, cost: packing.cost + packing.missing * 1e9, boards, cuts, kinds: kinds.size };
}

/** Ripped strips two to a cross-section where both widths allow: longest with the next longest that fits beside it. */
function sharedLengths(strips: { length: number; width: number }[], roomUm: number): number[] {
  const order = strips.slice().sort((a, b) => b.length - a.length);
  const out: number[] = [];
  const done = new Array<boolean>(order.length).fill(false);
  for (let i = 0; i < order.length; i++) {
    if (done[i]) continue;
    out.push(order[i]!.length);
    for (let j = i + 1; j < order.length; j++)
      if (!done[j] && order[i]!.width + order[j]!.width <= roomUm) {
        done[j] = true;
        break;
      }
  }
  return out;
}

function better(a: Tried, b: Tried): boolean {
  if (a.breaches !== b.breaches) return a.breaches < b.breaches;
  if (Math.abs(a.cost - b.cost) > 1e-9 * a.cost) return a.cost < b.cost;
  if (a.cuts !== b.cuts) return a.cuts < b.cuts;
  return a.kinds < b.kinds;
}
