/** What holds each edge of each piece: clips, else the trim that covers it, else screws where there is room, else nothing. */
import { toUm } from "../../base/units.ts";
import type { Uv } from "../../geometry/frame.ts";
import type { Job } from "../../job/job.ts";
import { coverLine } from "../../solve/interval-cover.ts";
import { freeOf, joinIntervals } from "../../solve/intervals.ts";
import type { BondRecord, Piece } from "../bond/record.ts";
import { type Barriers, barredAlong, distanceTo, insideAlong, nearAlong } from "./barred.ts";
import type { Clip, Held } from "./record.ts";
import type { ClipRules } from "./rules.ts";

/** The trim laps the board at least this far where it is said to hold it, um. Common practice, no source. */
const LAP_UM = 10_000;
/** Screws are set this much further in than the hole rule asks, where the width allows. */
const IN_HAND_UM = 10_000;
const LOOK_UM = 100_000;

export interface HeldEdges {
  heldBy: [Held, Held][];
  screws: { piece: number; edge: 0 | 1; uUm: number; vUm: number }[];
  /** Edges nothing holds. */
  loose: { piece: number; edge: 0 | 1 }[];
}

export function heldEdges(
  job: Job,
  bond: BondRecord,
  clips: readonly Clip[],
  barriers: Barriers,
  rules: ClipRules,
): HeldEdges {
  const clipped = bond.pieces.map((): [boolean, boolean] => [false, false]);
  for (const clip of clips) {
    if (clip.kind === "end") continue;
    for (const index of clip.holds) clipped[index]![bond.pieces[index]!.row === clip.seam ? 0 : 1] = true;
  }
  const open = openSides(barriers);
  const leg = job.trim ? toUm(job.trim.leg) - LAP_UM : -1;
  const out: HeldEdges = { heldBy: [], screws: [], loose: [] };
  bond.pieces.forEach((piece, index) => {
    const held: [Held, Held] = ["none", "none"];
    for (const edge of [0, 1] as const) {
      if (clipped[index]![edge]) {
        held[edge] = "clips";
        continue;
      }
      if (leg > 0 && underTrim(edgeChain(piece, edge, true), open, leg)) {
        held[edge] = "trim";
        continue;
      }
      const screws = screwsAlong(piece, edge, edgeChain(piece, edge, false), barriers, rules);
      if (screws.length > 0) {
        held[edge] = "screws";
        for (const [uUm, vUm] of screws) out.screws.push({ piece: index, edge, uUm, vUm });
      } else out.loose.push({ piece: index, edge });
    }
    out.heldBy.push(held);
  });
  return out;
}

/** The lower or upper boundary of a piece; `ends`: with the steep parts, which are rather its ends. */
function edgeChain(piece: Piece, edge: 0 | 1, ends: boolean): [Uv, Uv][] {
  if (piece.plain) {
    const v = edge === 0 ? piece.v0Um : piece.v1Um;
    return [
      [
        [piece.u0Um, v],
        [piece.u1Um, v],
      ],
    ];
  }
  const flat: [Uv, Uv][] = [];
  const steep: [Uv, Uv][] = [];
  const ring = piece.region.outer;
  for (let i = 0; i < ring.length; i++) {
    const p = ring[i]!;
    const q = ring[(i + 1) % ring.length]!;
    const along = (edge === 0 ? 1 : -1) * (q[0] - p[0]);
    if (along <= 0) continue;
    (Math.abs(q[1] - p[1]) <= along ? flat : steep).push([p, q]);
  }
  return ends ? [...flat, ...steep] : flat.length > 0 ? flat : steep;
}

function openSides(barriers: Barriers): [Uv, Uv][] {
  const { outline, edges } = barriers.site;
  const out: [Uv, Uv][] = [];
  edges.forEach((edge, i) => {
    if (edge.kind === "open") out.push([outline[i]!, outline[(i + 1) % outline.length]!]);
  });
  return out;
}

/** v of a piece's lower or upper boundary at u, which lies within the piece. */
export function boundaryAt(piece: Piece, edge: 0 | 1, u: number): number {
  let found: number | null = null;
  for (const [p, q] of edgeChain(piece, edge, true)) {
    if (Math.min(p[0], q[0]) > u || Math.max(p[0], q[0]) < u) continue;
    const v = p[1] + ((u - p[0]) * (q[1] - p[1])) / (q[0] - p[0]);
    if (found === null || (edge === 0 ? v < found : v > found)) found = v;
  }
  return Math.round(found ?? (edge === 0 ? piece.v0Um : piece.v1Um));
}

/** Is the whole chain within `reach` of open sides? Looked at every tenth of a metre and at every corner. */
function underTrim(chain: readonly [Uv, Uv][], open: readonly [Uv, Uv][], reach: number): boolean {
  if (open.length === 0 || chain.length === 0) return false;
  for (const [p, q] of chain) {
    const steps = Math.max(2, Math.ceil(Math.max(Math.abs(q[0] - p[0]), Math.abs(q[1] - p[1])) / LOOK_UM));
    for (let i = 0; i <= steps; i++) {
      const t = i / steps;
      const at: Uv = [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t];
      if (!open.some(([a, b]) => distanceTo(at, a, b) <= reach)) return false;
    }
  }
  return true;
}

/**
 * Screws through the face that hold an edge: the hole's rim `holeEdge` from every edge of the piece, the first and
 * last within the reach of a clip that stands alone, no further apart than clips; least in number. Empty: no room.
 */
function screwsAlong(
  piece: Piece,
  edge: 0 | 1,
  chain: readonly [Uv, Uv][],
  barriers: Barriers,
  rules: ClipRules,
): Uv[] {
  const clear = rules.holeEdge + Math.ceil(rules.diameter / 2);
  if (piece.widthUm < 2 * clear || piece.lengthUm < 2 * clear || chain.length === 0) return [];
  const side = edge === 0 ? 1 : -1;
  let line = edge === 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  let u0 = Number.POSITIVE_INFINITY;
  let u1 = Number.NEGATIVE_INFINITY;
  for (const part of chain) {
    for (const [u, v] of part) {
      line = edge === 0 ? Math.max(line, v) : Math.min(line, v);
      u0 = Math.min(u0, u);
      u1 = Math.max(u1, u);
    }
  }
  const spare = (edge === 0 ? piece.v1Um - line : line - piece.v0Um) - 2 * clear;
  if (spare < 0) return [];
  const inward = [Math.min(IN_HAND_UM, Math.floor(spare / 2)), 0];
  for (let further = 2 * IN_HAND_UM; further < spare + IN_HAND_UM; further += IN_HAND_UM)
    inward.push(Math.min(further, spare));
  for (const extra of inward) {
    const v = line + side * (clear + extra);
    const at = coverWithScrews(piece, v, u0, u1, clear, barriers, rules);
    if (at.length > 0) return at.map((u): Uv => [u, v]);
  }
  return [];
}

function coverWithScrews(
  piece: Piece,
  v: number,
  u0: number,
  u1: number,
  clear: number,
  barriers: Barriers,
  rules: ClipRules,
): number[] {
  const zones = barredAlong({ ...barriers, rules: { ...rules, holes: [[0, 0]] } }, v, u0, u1, false).map((z) => ({
    ...z,
  }));
  const rings = piece.plain ? [] : [piece.region.outer, ...piece.region.holes];
  for (const ring of rings) {
    for (let i = 0; i < ring.length; i++) {
      const near = nearAlong(ring[i]!, ring[(i + 1) % ring.length]!, clear, v);
      if (near) zones.push({ lo: Math.floor(near[0]), hi: Math.ceil(near[1]), why: "cutout", name: "" });
    }
  }
  const inside: [number, number][] = piece.plain ? [[piece.u0Um, piece.u1Um]] : insideAlong(piece.region.outer, v);
  const barred = joinIntervals(zones);
  const free = inside.flatMap(([a, b]) => freeOf(Math.ceil(a) + clear, Math.floor(b) - clear, barred));
  const long = u1 - u0 >= 2 * rules.length;
  const reach = Math.max(rules.startEndMax, clear);
  const open = u0 + reach;
  const close = u1 - reach;
  const cells = free.flatMap((room) =>
    joinCuts(room.lo, room.hi, [open + 1, close]).map(({ lo, hi }) => ({
      lo,
      hi,
      holds: [
        { n: 0, k: 1 as const, open0: hi <= open, close0: lo >= close, open1: false, close1: false },
        { n: 0, k: 0 as const, open0: false, close0: false, open1: false, close1: false },
      ] as const,
    })),
  );
  const middle = (lo: number, hi: number): number => Math.round((lo + hi) / 2);
  const need: [number[], number[]] = [[long ? 2 : 1], []];
  const least = long ? Math.min(rules.length, Math.max(1, u1 - u0 - 2 * clear)) : 1;
  const found = coverLine({ cells, needs: need, windows: [], least, most: rules.most }, middle);
  return found.points ? found.points.map((p) => p.at) : [];
}

function joinCuts(lo: number, hi: number, cuts: readonly number[]): { lo: number; hi: number }[] {
  const inside = cuts.filter((c) => c > lo && c <= hi).sort((a, b) => a - b);
  const out: { lo: number; hi: number }[] = [];
  let from = lo;
  for (const cut of [...inside, hi + 1]) {
    if (cut > from) out.push({ lo: from, hi: cut - 1 });
    from = Math.max(from, cut);
  }
  return out;
}
