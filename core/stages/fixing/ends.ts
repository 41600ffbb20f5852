import { freeOf, type Interval, joinIntervals } from "../../solve/intervals.ts";
import type { BondRecord, Piece } from "../bond/record.ts";
import type { Span } from "../setout/record.ts";
import { type Barriers, barredAlong, insideAlong, type Zone } from "./barred.ts";
import type { Clip } from "./record.ts";
import type { ClipRules } from "./rules.ts";

/** Where across the piece an end clip is tried, in this order. */
const ACROSS = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9, 0.04, 0.96] as const;
/** A piece this many clips long, or shorter, may be served by one clip where its two ends lie that near on some line. */
const SHORT = 4;
const MM = 1000;

export interface EndBarred {
  row: number;
  end: "left" | "right";
  uUm: number;
  vUm: number;
  why: Zone["why"];
  name: string;
}

/**
 * An end clip at both ends of every unbroken span: half a clip length in from the end, on the middle of the piece,
 * moved along and then across where the base may not be drilled there. A span no longer than two clips is served by one.
 */
export function endClips(
  bond: BondRecord,
  spans: readonly Span[],
  barriers: Barriers,
  rules: ClipRules,
): { clips: Clip[]; barred: EndBarred[] } {
  const first = new Array<number>(spans.length).fill(-1);
  const last = new Array<number>(spans.length).fill(-1);
  bond.pieces.forEach((piece, i) => {
    const s = piece.span;
    if (first[s]! < 0 || bond.pieces[first[s]!]!.u0Um > piece.u0Um) first[s] = i;
    if (last[s]! < 0 || bond.pieces[last[s]!]!.u1Um < piece.u1Um) last[s] = i;
  });
  const clips: Clip[] = [];
  const barred: EndBarred[] = [];
  for (let s = 0; s < spans.length; s++) {
    if (first[s]! < 0) continue;
    const left = bond.pieces[first[s]!]!;
    const right = bond.pieces[last[s]!]!;
    if (left === right && left.lengthUm <= SHORT * rules.length) {
      const both = placeEnd(left, "both", barriers, rules);
      if (both.at) {
        clips.push(clipAt(left.row, both.at, first[s]!));
        continue;
      }
    }
    let from: number | null = null;
    for (const end of ["left", "right"] as const) {
      const piece = end === "left" ? left : right;
      const placed = placeEnd(piece, end, barriers, rules, left === right ? from : null);
      if (placed.at) from = placed.at.u;
      if (placed.at) clips.push(clipAt(piece.row, placed.at, end === "left" ? first[s]! : last[s]!));
      else
        barred.push({
          row: piece.row,
          end,
          uUm: end === "left" ? piece.u0Um : piece.u1Um,
          vUm: Math.round((piece.v0Um + piece.v1Um) / 2),
          why: placed.zone?.why ?? "cutout",
          name: placed.zone?.name ?? "",
        });
    }
  }
  return { clips, barred };
}

interface Place {
  u: number;
  v: number;
  play: [number, number];
}

function clipAt(row: number, at: Place, piece: number): Clip {
  return { id: "", kind: "end", seam: row, uUm: at.u, vUm: at.v, playUm: at.play, holds: [piece] };
}

function placeEnd(
  piece: Piece,
  end: "left" | "right" | "both",
  barriers: Barriers,
  rules: ClipRules,
  /** Another clip in the same piece: its body is kept clear of. */
  from: number | null = null,
): { at: Place | null; zone: Zone | null } {
  let zone: Zone | null = null;
  for (const part of ACROSS) {
    const v = Math.round(piece.v0Um + (piece.v1Um - piece.v0Um) * part);
    const reach = reachAlong(piece, v, end, rules.length);
    if (!reach) continue;
    if (from !== null) reach.lo = Math.max(reach.lo, from + rules.length);
    if (reach.lo > reach.hi) continue;
    const zones = barredAlong(barriers, v, reach.lo, reach.hi, false);
    if (!piece.plain) {
      // A notch open to one side parts the line as a hole does: no clip stands in it.
      const across = insideAlong(piece.region.outer, v);
      for (let i = 1; i < across.length; i++)
        zones.push({
          lo: Math.floor(across[i - 1]![1]) - 5,
          hi: Math.ceil(across[i]![0]) + 5,
          why: "cutout",
          name: "",
        });
      for (const hole of piece.region.holes)
        for (const [lo, hi] of insideAlong(hole, v))
          zones.push({ lo: Math.floor(lo), hi: Math.ceil(hi), why: "cutout", name: "" });
    }
    const free = freeOf(reach.lo, reach.hi, joinIntervals(zones));
    if (free.length === 0) {
      zone ??= zones[0] ?? null;
      continue;
    }
    let best: Place | null = null;
    for (const room of free) {
      const u = Math.min(Math.max(reach.wish, room.lo), room.hi);
      if (best && Math.abs(best.u - reach.wish) <= Math.abs(u - reach.wish)) continue;
      best = { u, v, play: [-Math.floor((u - room.lo) / MM) * MM + 0, Math.floor((room.hi - u) / MM) * MM] };
    }
    return { at: best, zone: null };
  }
  return { at: null, zone };
}

/** The stretch at v that lies in the piece within one clip length of the end, and the place wished for. */
function reachAlong(
  piece: Piece,
  v: number,
  end: "left" | "right" | "both",
  length: number,
): (Interval & { wish: number }) | null {
  const inside: [number, number][] = piece.plain ? [[piece.u0Um, piece.u1Um]] : insideAlong(piece.region.outer, v);
  if (inside.length === 0) return null;
  const a = Math.ceil(end === "right" ? inside[inside.length - 1]![0] : inside[0]![0]);
  const b = Math.floor(end === "left" ? inside[0]![1] : inside[inside.length - 1]![1]);
  let lo = a;
  let hi = b;
  if (end === "both") {
    hi = Math.min(hi, a + length);
    lo = Math.max(lo, b - length);
  } else if (end === "left") hi = Math.min(hi, piece.u0Um + length >= a ? piece.u0Um + length : a + length);
  else lo = Math.max(lo, piece.u1Um - length <= b ? piece.u1Um - length : b - length);
  if (lo > hi) return null;
  const wish = end === "both" ? Math.round((a + b) / 2) : end === "left" ? a + length / 2 : b - length / 2;
  return { lo, hi, wish: Math.round(Math.min(Math.max(wish, lo), hi)) };
}
