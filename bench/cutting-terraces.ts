import { toUm } from "../core/base/units.ts";
import { frameAt, type Region, type Ring, type Uv } from "../core/geometry/frame.ts";
import type { Job } from "../core/job/job.ts";
import { normaliseJob } from "../core/job/normalise.ts";
import type { BondRecord, EdgeKind, Piece } from "../core/stages/bond/record.ts";
import type { SetoutRecord, Span } from "../core/stages/setout/record.ts";

/** A terrace as a band between a left and a right line for each height, in mm: enough for rectangles, Ls and trapezoids. */
export interface Terrace {
  name: string;
  heightMm: number;
  /** Steps from below: up to `toMm` the left side runs from left[0] to left[1], the right one from right[0] to right[1]. */
  steps: { toMm: number; left: [number, number]; right: [number, number] }[];
}

/** Repeatable whole numbers, 0 <= n < below (Park & Miller 1988). */
export function chance(seed: number): (below: number) => number {
  let state = (seed % 2147483646) + 1;
  return (below) => {
    state = (state * 48271) % 2147483647;
    return Math.floor((state / 2147483647) * below);
  };
}

/** A job with defaults for everything not given. */
export function jobOf(given: Record<string, unknown>): Job {
  return normaliseJob({
    format: "rowline/job@1",
    site: {
      outline: [
        [0, 0],
        [6000, 0],
        [6000, 4000],
        [0, 4000],
      ],
    },
    ...given,
  }).job;
}

/** A terrace of about this area: rectangle, L or trapezoid. */
export function randomTerrace(seed: number, areaM2: number, shape: "rectangle" | "L" | "trapezoid"): Terrace {
  const roll = chance(seed * 7919 + 13);
  const ratio = 0.6 + roll(160) / 100;
  const side = Math.sqrt(areaM2 * 1e6);
  const width = Math.round(side * Math.sqrt(ratio)) + roll(100);
  const heightMm = Math.round((areaM2 * 1e6) / width);
  const name = `${shape} ${areaM2} m2 #${seed}`;
  if (shape === "rectangle")
    return { name, heightMm, steps: [{ toMm: heightMm, left: [0, 0], right: [width, width] }] };
  if (shape === "trapezoid") {
    const lean = Math.round(width * (0.05 + roll(25) / 100));
    return { name, heightMm, steps: [{ toMm: heightMm, left: [0, roll(2) * lean], right: [width, width - lean] }] };
  }
  const notch = Math.round(width * (0.3 + roll(40) / 100));
  const at = Math.round(heightMm * (0.3 + roll(40) / 100));
  return {
    name,
    heightMm,
    steps: [
      { toMm: at, left: [0, 0], right: [width, width] },
      { toMm: heightMm, left: [0, 0], right: [notch, notch] },
    ],
  };
}

/** Rows and spans of a terrace from its lower edge up, the last row ripped where it must be; pieces outside are not needed. */
export function setOutTerrace(job: Job, terrace: Terrace): SetoutRecord {
  const w = toUm(job.board.width);
  const gap = toUm(job.gaps.side);
  const top = toUm(terrace.heightMm);
  const spans: Span[] = [];
  const rows: SetoutRecord["rows"] = [];
  for (let row = 0; row * (w + gap) < top - 2000; row++) {
    const v0 = row * (w + gap);
    const v1 = Math.min(v0 + w, top);
    const region = bandRegion(terrace, v0, v1);
    const us = region.outer.map((p) => p[0]);
    const vs = region.outer.map((p) => p[1]);
    const plain = region.outer.length === 4 && new Set(us).size === 2;
    rows.push({ row, v0Um: v0, v1Um: v0 + w, spans: [spans.length] });
    spans.push({
      row,
      region,
      u0Um: Math.min(...us),
      u1Um: Math.max(...us),
      v0Um: Math.min(...vs),
      v1Um: Math.max(...vs),
      plain,
      mustJoint: [],
      noJoint: [],
    });
  }
  const frame = frameAt(0, 0, 0);
  const site = { outline: [], edges: [], cutouts: [], noDrill: [], keepClear: [], baseJoints: [], slab: null };
  return {
    frame,
    site,
    field: [],
    fieldAreaUm2: 0,
    boardWidthUm: w,
    sideGapUm: gap,
    rows,
    spans,
    reasons: [],
    findings: [],
  };
}

/** The band's ring between two heights; a step inside it takes the narrower part, so that the ring stays one. */
function bandRegion(terrace: Terrace, v0: number, v1: number): Region {
  let from = 0;
  let step = terrace.steps[0]!;
  for (const s of terrace.steps) {
    step = s;
    if (toUm(s.toMm) > v0) break;
    from = toUm(s.toMm);
  }
  const next = terrace.steps[terrace.steps.indexOf(step) + 1];
  const to = toUm(step.toMm);
  if (to < v1 && next !== undefined) {
    const right = toUm(next.right[0]);
    return {
      outer: [
        [toUm(step.left[0]), v0],
        [right, v0],
        [right, v1],
        [toUm(step.left[0]), v1],
      ],
      holes: [],
    };
  }
  const at = (side: [number, number], v: number): number =>
    Math.round(toUm(side[0]) + (toUm(side[1] - side[0]) * (v - from)) / (to - from));
  return {
    outer: [
      [at(step.left, v0), v0],
      [at(step.right, v0), v0],
      [at(step.right, v1), v1],
      [at(step.left, v1), v1],
    ],
    holes: [],
  };
}

/** Joints of half bond from u = phase: lattice points, moved where a piece would get shorter than the least. */
export function halfJoints(job: Job, setout: SetoutRecord, phaseUm: number): number[][] {
  const length = toUm(Math.max(...job.board.lengths.map((l) => l.length)));
  const end = toUm(job.gaps.end);
  const least = toUm(job.bond.minPiece);
  const pitch = length + end;
  return setout.spans.map((span) => {
    if (span.u1Um - span.u0Um <= length) return [];
    const shift = phaseUm + (span.row % 2 === 1 ? Math.round(pitch / 2) : 0);
    const joints: number[] = [];
    let u = shift + Math.ceil((span.u0Um - shift) / pitch) * pitch;
    for (; u < span.u1Um; u += pitch) joints.push(u);
    const first = span.u0Um + least + end / 2;
    const last = span.u1Um - least - end / 2;
    const moved = joints.map((j) => Math.min(Math.max(j, first), last));
    const kept = moved.filter((j, k) => k === 0 || j - moved[k - 1]! >= least + end);
    const ends = [span.u0Um - end, ...kept, span.u1Um + end];
    if (ends.every((u, k) => k === 0 || u - ends[k - 1]! - end <= length)) return kept;
    // No lattice joint where one must be: even pieces.
    const n = Math.ceil((span.u1Um - span.u0Um + end) / pitch);
    return Array.from({ length: n - 1 }, (_, k) => Math.round(span.u0Um + ((span.u1Um - span.u0Um) * (k + 1)) / n));
  });
}

/** Pieces between joints, straight cut; edges by what the strip leaves. */
export function piecesOf(
  job: Job,
  setout: SetoutRecord,
  joints: readonly number[][],
  kind: BondRecord["kind"],
): BondRecord {
  const end = toUm(job.gaps.end);
  const grooves = job.board.grooves;
  const edge = (whole: boolean, has: boolean): EdgeKind => (!whole ? "ripped" : has ? "groove" : "plain");
  const pieces: Piece[] = [];
  const list: BondRecord["joints"] = [];
  setout.spans.forEach((span, s) => {
    const row = setout.rows[span.row]!;
    const cuts = joints[s]!;
    for (let k = 0; k <= cuts.length; k++) {
      const from = k === 0 ? span.u0Um : cuts[k - 1]! + Math.ceil(end / 2);
      const to = k === cuts.length ? span.u1Um : cuts[k]! - Math.floor(end / 2);
      const outer = clipped(span.region.outer, from, to);
      const us = outer.map((p) => p[0]);
      const plain = outer.length === 4 && new Set(us).size === 2;
      if (k > 0) list.push({ row: span.row, uUm: cuts[k - 1]!, left: pieces.length - 1, right: pieces.length });
      pieces.push({
        id: `p${pieces.length + 1}`,
        row: span.row,
        span: s,
        region: { outer, holes: [] },
        u0Um: Math.min(...us),
        u1Um: Math.max(...us),
        v0Um: span.v0Um,
        v1Um: span.v1Um,
        lengthUm: Math.max(...us) - Math.min(...us),
        widthUm: span.v1Um - span.v0Um,
        ends: [k === 0 ? "cut" : "factory", k === cuts.length ? "cut" : "factory"],
        edges: [
          edge(span.v0Um === row.v0Um, grooves === "both" || grooves === "lower"),
          edge(span.v1Um === row.v1Um, grooves === "both" || grooves === "upper"),
        ],
        stripV0Um: row.v0Um,
        stripV1Um: row.v1Um,
        plain,
        cutWhen: "ahead",
      });
    }
  });
  return { kind, lengthUm: 0, phaseUm: 0, joints: list, pieces, reasons: [], findings: [] };
}

/** A convex ring between two u's, rounded. */
function clipped(ring: Ring, from: number, to: number): Ring {
  return half(half(ring, from, 1), to, -1).filter((p, i, all) => {
    const before = all[(i + all.length - 1) % all.length]!;
    return p[0] !== before[0] || p[1] !== before[1];
  });
}
function half(ring: Ring, u: number, sign: 1 | -1): Uv[] {
  const out: Uv[] = [];
  ring.forEach((p, i) => {
    const q = ring[(i + 1) % ring.length]!;
    const a = sign * (p[0] - u);
    const b = sign * (q[0] - u);
    if (a >= 0) out.push(p);
    if ((a > 0 && b < 0) || (a < 0 && b > 0)) out.push([u, Math.round(p[1] + ((q[1] - p[1]) * a) / (a - b))]);
  });
  return out;
}
