import type { BoundaryLoop } from "./base-loops.ts";
import { nextEdge, type Triangulation } from "./delaunay.ts";
import { heightOn, type PlaneAbc } from "./plane.ts";

export type Level = { readonly xMm: number; readonly yMm: number; readonly zMm: number };

/** Two points closer than this are one place, mm: a tenth of what a tape can read would already do. */
export const SAME_MM = 0.01;
/** Points are not put on the edge closer together than this, mm. */
export const CLOSE_MM = 1;

export interface Reading {
  x: number;
  y: number;
  z: number;
  index: number;
}

/** Readings at one place become one, at their mean height. */
export function mergePlaces(levels: readonly Level[]): Reading[] {
  const at = new Map<string, { x: number; y: number; sum: number; n: number; index: number }>();
  for (const [index, l] of levels.entries()) {
    const key = placeKey(l.xMm, l.yMm);
    const known = at.get(key);
    if (known) {
      known.sum += l.zMm;
      known.n++;
    } else at.set(key, { x: l.xMm, y: l.yMm, sum: l.zMm, n: 1, index });
  }
  return [...at.values()].map((p) => ({ x: p.x, y: p.y, z: p.sum / p.n, index: p.index }));
}

function placeKey(x: number, y: number): string {
  return `${Math.round(x / SAME_MM) + 0},${Math.round(y / SAME_MM) + 0}`;
}

/** Points of the final mesh, each place once. */
export class Nodes {
  readonly x: number[] = [];
  readonly y: number[] = [];
  readonly z: number[] = [];
  readonly reading: number[] = [];
  private readonly at = new Map<string, number>();

  add(x: number, y: number, z: number, reading: number): number {
    const key = placeKey(x, y);
    const known = this.at.get(key);
    if (known !== undefined) return known;
    this.at.set(key, this.x.length);
    this.x.push(x);
    this.y.push(y);
    this.z.push(z);
    this.reading.push(reading);
    return this.x.length - 1;
  }

  find(x: number, y: number): number {
    return this.at.get(placeKey(x, y)) ?? -1;
  }
}

/** What is at hand while the edge is given its nodes. */
export interface Noding {
  readings: Reading[];
  raw: Triangulation;
  plane: PlaneAbc;
  step: number;
  nodes: Nodes;
  wanted: [number, number, number][];
  /** Rim half-edge of the raw triangulation -> nodes on it. */
  hullCuts: Map<number, number[]>;
  inside: Reading[];
}

/** Puts the nodes of one boundary loop: its vertices, readings on it, and its crossings with the raw triangulation. */
export function nodeLoop(loop: BoundaryLoop, n: Noding): void {
  const count = loop.xy.length;
  for (let i = 0; i < count; i++) {
    const [x0, y0] = loop.xy[i]!;
    const [x1, y1] = loop.xy[(i + 1) % count]!;
    const length = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
    if (length < SAME_MM) continue;
    const stops: { s: number; node: number }[] = [
      { s: 0, node: cornerNode(n, x0, y0) },
      { s: length, node: cornerNode(n, x1, y1) },
    ];
    const ux = (x1 - x0) / length;
    const uy = (y1 - y0) / length;
    for (const r of n.inside) {
      const s = (r.x - x0) * ux + (r.y - y0) * uy;
      const off = (r.y - y0) * ux - (r.x - x0) * uy;
      if (s > SAME_MM && s < length - SAME_MM && Math.abs(off) <= SAME_MM) {
        stops.push({ s, node: n.nodes.find(r.x, r.y) });
      }
    }
    const crossings = edgeCrossings(n, x0, y0, ux, uy, length);
    for (const c of crossings) {
      const near = stops.find((t) => Math.abs(t.s - c.s) < CLOSE_MM);
      const node = near ? near.node : n.nodes.add(x0 + ux * c.s, y0 + uy * c.s, c.z, -1);
      if (!near) stops.push({ s: c.s, node });
      if (n.raw.twins[c.edge] === -1) {
        const cuts = n.hullCuts.get(c.edge);
        if (cuts) cuts.push(node);
        else n.hullCuts.set(c.edge, [node]);
      }
    }
    stops.sort((a, b) => a.s - b.s);
    carryOn(n, stops, x0, y0, ux, uy);
    for (let k = 1; k < stops.length; k++) {
      const a = stops[k - 1]!.node;
      const b = stops[k]!.node;
      if (a !== b) n.wanted.push([a, b, loop.label[i]!]);
    }
  }
}

/** Long stretches of the edge beyond the hull get a node every reading's width, so that heights follow their neighbours. */
function carryOn(
  n: Noding,
  stops: { s: number; node: number }[],
  x0: number,
  y0: number,
  ux: number,
  uy: number,
): void {
  const given = stops.length;
  for (let k = 1; k < given; k++) {
    const from = stops[k - 1]!.s;
    const gap = stops[k]!.s - from;
    if (gap <= 1.5 * n.step) continue;
    const middle = from + gap / 2;
    if (locate(n.readings, n.raw, x0 + ux * middle, y0 + uy * middle) >= 0) continue;
    const parts = Math.min(200, Math.ceil(gap / n.step));
    for (let p = 1; p < parts; p++) {
      const s = from + (gap * p) / parts;
      stops.push({ s, node: cornerNode(n, x0 + ux * s, y0 + uy * s) });
    }
  }
  stops.sort((a, b) => a.s - b.s);
}

/** A node at a place of the edge, its height from the raw triangulation or carried on beyond it. */
function cornerNode(n: Noding, x: number, y: number): number {
  const known = n.nodes.find(x, y);
  if (known >= 0) return known;
  const t = locate(n.readings, n.raw, x, y);
  return n.nodes.add(x, y, t >= 0 ? heightIn(n.readings, n.raw, t, x, y) : carriedHeight(n, x, y), -1);
}

function carriedHeight(n: Noding, x: number, y: number): number {
  let best = Number.POSITIVE_INFINITY;
  let residual = 0;
  for (const r of n.inside) {
    const d = (r.x - x) * (r.x - x) + (r.y - y) * (r.y - y);
    if (d < best) {
      best = d;
      residual = r.z - heightOn(n.plane, r.x, r.y);
    }
  }
  return heightOn(n.plane, x, y) + residual;
}

function heightIn(readings: Reading[], raw: Triangulation, t: number, x: number, y: number): number {
  const p = readings[raw.corners[3 * t]!]!;
  const q = readings[raw.corners[3 * t + 1]!]!;
  const r = readings[raw.corners[3 * t + 2]!]!;
  const det = (q.x - p.x) * (r.y - p.y) - (r.x - p.x) * (q.y - p.y);
  const wq = ((x - p.x) * (r.y - p.y) - (r.x - p.x) * (y - p.y)) / det;
  const wr = ((q.x - p.x) * (y - p.y) - (x - p.x) * (q.y - p.y)) / det;
  return p.z + wq * (q.z - p.z) + wr * (r.z - p.z);
}

/** Triangle that holds a place, or -1 outside the hull. Walks from triangle to triangle; gives up to a full look. */
function locate(readings: Reading[], raw: Triangulation, x: number, y: number): number {
  let t = 0;
  const triangles = raw.corners.length / 3;
  for (let step = 0; step < triangles + 3; step++) {
    let leave = -1;
    for (let k = 0; k < 3; k++) {
      const p = readings[raw.corners[3 * t + k]!]!;
      const q = readings[raw.corners[3 * t + ((k + 1) % 3)]!]!;
      if ((q.x - p.x) * (y - p.y) - (x - p.x) * (q.y - p.y) < 0) leave = 3 * t + k;
    }
    if (leave < 0) return t;
    const twin = raw.twins[leave]!;
    if (twin < 0) return -1;
    t = Math.floor(twin / 3);
  }
  return -1;
}

function edgeCrossings(n: Noding, x0: number, y0: number, ux: number, uy: number, length: number) {
  const found: { s: number; z: number; edge: number }[] = [];
  const { corners, twins } = n.raw;
  for (let e = 0; e < corners.length; e++) {
    if (twins[e]! > e) continue;
    const p = n.readings[corners[e]!]!;
    const q = n.readings[corners[nextEdge(e)]!]!;
    const dp = (p.y - y0) * ux - (p.x - x0) * uy;
    const dq = (q.y - y0) * ux - (q.x - x0) * uy;
    // An end on the line is a node already, or lies beyond the edge.
    if (dp > SAME_MM === dq > SAME_MM || Math.abs(dp) <= SAME_MM || Math.abs(dq) <= SAME_MM) continue;
    const f = dp / (dp - dq);
    const s = (p.x + f * (q.x - p.x) - x0) * ux + (p.y + f * (q.y - p.y) - y0) * uy;
    if (s > 0 && s < length) found.push({ s, z: p.z + f * (q.z - p.z), edge: e });
  }
  return found.sort((a, b) => a.s - b.s || a.edge - b.edge);
}

/** The hull of the readings becomes edges too, so that measured and carried-on triangles do not mix. */
export function addHullEdges(
  readings: Reading[],
  raw: Triangulation,
  cuts: Map<number, number[]>,
  nodes: Nodes,
  edges: [number, number][],
): void {
  for (let e = 0; e < raw.corners.length; e++) {
    if (raw.twins[e] !== -1) continue;
    const p = readings[raw.corners[e]!]!;
    const q = readings[raw.corners[nextEdge(e)]!]!;
    const at = (i: number) => (nodes.x[i]! - p.x) * (q.x - p.x) + (nodes.y[i]! - p.y) * (q.y - p.y);
    const chain = [nodes.find(p.x, p.y), ...(cuts.get(e) ?? []), nodes.find(q.x, q.y)].filter((i) => i >= 0);
    chain.sort((a, b) => at(a) - at(b) || a - b);
    for (let k = 1; k < chain.length; k++) if (chain[k] !== chain[k - 1]) edges.push([chain[k - 1]!, chain[k]!]);
  }
}
