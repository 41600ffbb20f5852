/** What the rules look at: the plan's pieces turned back into rows, the judge's own field, look-up tables. Whole micrometres. */
import { TOLERANCE } from "../base/tolerances.ts";
import type { Job } from "../job/job.ts";
import type { Clip, Piece, PlanFile, XyMm } from "../plan/plan.ts";
import type { SurveyRecord } from "../stages/survey/record.ts";
import { type Breach, type BreachCode, RULE_OF } from "./breach.ts";
import { type Field, fieldOf } from "./field.ts";
import { areaOf, type Bounds, boundsOf, box, meet, meetParts, type Part, type Path, type Paths } from "./polygons.ts";
import { intoRows, ontoSite, type Turn, turnOf } from "./turn.ts";

export const TOUCH = TOLERANCE.touchMm * 1000;

export interface Run {
  from: number;
  to: number;
}
export interface JudgedPiece extends Bounds {
  index: number;
  source: Piece;
  ring: Path;
  paths: Paths;
  /** The rectangle of its extents. */
  plain: boolean;
  row: JudgedRow | null;
  /** Where the ring lies on the strip's lower and upper edge. */
  runs: [Run[], Run[]];
}
export interface JudgedRow {
  row: number;
  v0: number;
  v1: number;
  /** By least u, then v. */
  pieces: JudgedPiece[];
  /** Connected parts of field and strip, by least u. */
  spans: { part: Part; bounds: Bounds }[];
  most: Paths;
  least: Paths;
}
export interface JudgedClip {
  index: number;
  source: Clip;
  u: number;
  v: number;
}
export interface Scene {
  job: Job;
  raw: unknown;
  hash: string;
  survey: SurveyRecord;
  plan: PlanFile;
  turn: Turn;
  field: Field;
  pieces: JudgedPiece[];
  pieceOf: Map<string, JudgedPiece>;
  rows: JudgedRow[];
  rowOf: Map<number, JudgedRow>;
  clips: JudgedClip[];
  clipOf: Map<string, JudgedClip>;
  breaches: Breach[];
  /** Breaches nothing excuses: what is uncovered far from every finding, a clip left out where there is room. */
  locked: Set<Breach>;
  /** Findings that may excuse, by rule; u, v in the row frame. */
  excuses: Map<string, { index: number; u: number; v: number }[]>;
}

export type SceneInput = { raw: unknown; job: Job; hash: string; survey: SurveyRecord };

export function sceneOf(input: SceneInput, plan: PlanFile): Scene {
  const turn = turnOf(plan.frame.origin, plan.frame.angle);
  const field = fieldOf(input.survey, turn);
  const scene: Scene = {
    ...input,
    plan,
    turn,
    field,
    pieces: [],
    pieceOf: new Map(),
    rows: [],
    rowOf: new Map(),
    clips: [],
    clipOf: new Map(),
    breaches: [],
    locked: new Set(),
    excuses: new Map(),
  };
  for (const row of [...plan.rows].sort((a, b) => a.row - b.row)) {
    const judged = { row: row.row, v0: um(row.v[0]), v1: um(row.v[1]), pieces: [], spans: [], most: [], least: [] };
    scene.rows.push(judged);
    scene.rowOf.set(row.row, judged);
  }
  plan.pieces.forEach((source, index) => {
    const piece = judgePiece(source, index, turn, scene.rowOf.get(source.row) ?? null);
    scene.pieces.push(piece);
    scene.pieceOf.set(source.id, piece);
    piece.row?.pieces.push(piece);
  });
  for (const row of scene.rows) row.pieces.sort((a, b) => a.u0 - b.u0 || a.v0 - b.v0);
  cutField(scene);
  plan.clips.forEach((source, index) => {
    const [u, v] = intoRows(turn, source.at[0], source.at[1]);
    const clip = { index, source, u: Math.round(u), v: Math.round(v) };
    scene.clips.push(clip);
    scene.clipOf.set(source.id, clip);
  });
  plan.findings.forEach((finding, index) => {
    if (finding.level === "note" || !finding.at) return;
    const [u, v] = intoRows(turn, finding.at[0], finding.at[1]);
    const list = scene.excuses.get(finding.rule);
    if (list) list.push({ index, u, v });
    else scene.excuses.set(finding.rule, [{ index, u, v }]);
  });
  return scene;
}

export const um = (mm: number): number => Math.round(mm * 1000);
/**
 * Longest board every row may count on, mm: lengths of which only some are at hand are left aside while there is one
 * without end.
 */
export function countedOn(job: Job): number {
  const { lengths } = job.board;
  const endless = lengths.filter((l) => l.stock === null);
  const atHand = lengths.filter((l) => l.stock !== 0);
  return Math.max(...(endless.length > 0 ? endless : atHand.length > 0 ? atHand : lengths).map((l) => l.length));
}

export const mm = (micrometres: number): number => Math.round(micrometres) / 1000 + 0;

/** Notes a breach at a place in the row frame. */
export function blame(
  scene: Scene,
  code: BreachCode,
  at: readonly [u: number, v: number] | null,
  found: string | number | null = null,
  limit: string | number | null = null,
  data: Record<string, string | number> = {},
): Breach {
  const place: XyMm | null = at ? ontoSite(scene.turn, at[0], at[1]) : null;
  const breach: Breach = { rule: RULE_OF[code], code, at: place, found, limit, data };
  scene.breaches.push(breach);
  return breach;
}

function judgePiece(source: Piece, index: number, turn: Turn, row: JudgedRow | null): JudgedPiece {
  const place = ([x, y]: XyMm): { x: number; y: number } => {
    const [u, v] = intoRows(turn, x, y);
    return { x: Math.round(u) + 0, y: snap(Math.round(v) + 0, row) };
  };
  let ring = source.ring.map(place);
  if (areaOf([ring]) < 0) ring = ring.reverse();
  const holes = source.holes.map((hole) => {
    const path = hole.map(place);
    return areaOf([path]) > 0 ? path.reverse() : path;
  });
  const bounds = boundsOf([ring]);
  const plain = holes.length === 0 && isBox(ring, bounds);
  if (plain) ring = box(bounds.u0, bounds.v0, bounds.u1, bounds.v1);
  const runs: [Run[], Run[]] = row ? [runsAt(ring, row.v0), runsAt(ring, row.v1)] : [[], []];
  return { ...bounds, index, source, ring, paths: [ring, ...holes], plain, row, runs };
}

/** A strip's edge, where the coordinate is it but for the file's rounding. */
function snap(v: number, row: JudgedRow | null): number {
  if (row && Math.abs(v - row.v0) <= 3) return row.v0;
  if (row && Math.abs(v - row.v1) <= 3) return row.v1;
  return v;
}

function isBox(ring: Path, b: Bounds): boolean {
  if (ring.length !== 4) return false;
  const near = (a: number, c: number): boolean => Math.abs(a - c) <= 3;
  return ring.every((p, i) => {
    const q = ring[(i + 1) % 4]!;
    const corner = (near(p.x, b.u0) || near(p.x, b.u1)) && (near(p.y, b.v0) || near(p.y, b.v1));
    // Round the box, not across it: each edge runs along one axis.
    return corner && near(p.x, q.x) !== near(p.y, q.y);
  });
}

/** Unbroken stretches of the ring on the line v; stretches that touch are one. */
function runsAt(ring: Path, v: number): Run[] {
  const runs: Run[] = [];
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i]!;
    const b = ring[(i + 1) % ring.length]!;
    if (Math.abs(a.y - v) > TOUCH || Math.abs(b.y - v) > TOUCH || Math.abs(a.x - b.x) <= TOUCH) continue;
    runs.push({ from: Math.min(a.x, b.x), to: Math.max(a.x, b.x) });
  }
  runs.sort((a, b) => a.from - b.from);
  const out: Run[] = [];
  for (const run of runs) {
    const last = out[out.length - 1];
    if (last && run.from - last.to <= TOUCH) last.to = Math.max(last.to, run.to);
    else out.push({ ...run });
  }
  return out;
}

/** The field of every row, cut by halving the rows so that each cut sees only what is near. */
function cutField(scene: Scene): void {
  const all = [scene.field.paths, scene.field.most, scene.field.least] as const;
  const b = boundsOf(scene.field.outline);
  const over = TOLERANCE.gapOverMm * 1000;
  const visit = (lo: number, hi: number, whole: Paths, most: Paths, least: Paths): void => {
    if (hi <= lo) return;
    if (hi - lo === 1) {
      const row = scene.rows[lo]!;
      row.spans = meetParts(whole, [box(b.u0 - 1000, row.v0, b.u1 + 1000, row.v1)])
        .map((part) => ({ part, bounds: boundsOf(part) }))
        .sort((p, q) => p.bounds.u0 - q.bounds.u0 || p.bounds.v0 - q.bounds.v0);
      row.most = meet(most, [box(b.u0 - 1000, row.v0 - TOUCH, b.u1 + 1000, row.v1 + TOUCH)]);
      // A side gap too may exceed its nominal, so the strip is judged that much narrower.
      row.least =
        row.v1 - row.v0 > 2 * over ? meet(least, [box(b.u0 - 1000, row.v0 + over, b.u1 + 1000, row.v1 - over)]) : [];
      return;
    }
    const v0 = scene.rows[lo]!.v0 - 1000;
    const v1 = scene.rows[hi - 1]!.v1 + 1000;
    const slab = [box(b.u0 - 2000, Math.min(v0, v1), b.u1 + 2000, Math.max(v0, v1))];
    const half = (lo + hi) >> 1;
    const cut = (p: Paths): Paths => (p.length === 0 ? p : meet(p, slab));
    const [w, m, l] = [cut(whole), cut(most), cut(least)];
    visit(lo, half, w, m, l);
    visit(half, hi, w, m, l);
  };
  visit(0, scene.rows.length, ...all);
}
