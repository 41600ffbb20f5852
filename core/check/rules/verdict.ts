/**
 * Rule 11, the verdict on the base: the least-squares plane fitted again, the minimum zone proved from its certificate
 * (weights with which no plane can do better), the straightedge gap held against gaps found on the readings themselves,
 * and a verdict no better than these allow. What may lie hidden stops drilling until someone named has confirmed.
 */
import type { PlanFile } from "../../plan/plan.ts";
import { pointsOf, walkRing } from "../curve.ts";
import { blame, type Scene } from "../scene.ts";
import { unitOf } from "../turn.ts";

interface Level {
  x: number;
  y: number;
  z: number;
}
/** Falls and heights of the file agree with the judge's to this. */
const FALL_SLACK = 0.02;
const HEIGHT_SLACK_MM = 0.02;
/** A grid wider than this proves no evenness without a straightedge. */
const GRID_MM = 500;
/** On an edge, but for the last digits. */
const ON_EDGE_MM = 0.01;
/** A reading this far inside a part of the base belongs to it and no other. */
const FACET_EDGE_MM = 50;

export function judgeVerdict(scene: Scene): void {
  judgeHidden(scene);
  const levels = countedLevels(scene);
  const { base } = scene.plan;
  const plane = leastSquares(levels);
  if (!base) {
    if (plane && levels.length >= 4) blame(scene, "baseMissing", null, null, levels.length, {});
    return;
  }
  if (!plane) {
    blame(scene, "baseMissing", null, levels.length, 3, {});
    return;
  }
  const fall = Math.sqrt(plane.a * plane.a + plane.b * plane.b) * 100;
  const [c, s] = unitOf(base.plane.towards);
  const off =
    Math.max(Math.abs((-base.plane.fall * c) / 100 - plane.a), Math.abs((-base.plane.fall * s) / 100 - plane.b)) * 100;
  if (off > FALL_SLACK) blame(scene, "plane", null, base.plane.fall, Math.round(fall * 1000) / 1000, {});
  judgeZone(scene, base, levels);
  judgeFacets(scene, base, levels);
  judgeStraightedge(scene, base, levels);
  judgeWord(scene, base, levels, fall);
}

/** Membrane, heating, tendons: there or unknown is a stop, until a named confirmation. */
function judgeHidden(scene: Scene): void {
  const { base } = scene.job;
  for (const hidden of ["membrane", "heating", "tendons"] as const) {
    if (base[hidden] === false || base.confirmed.some((one) => one.of === hidden && one.by.trim() !== "")) continue;
    const stopped = scene.plan.findings.some((f) => f.rule === hidden && f.level === "stop");
    if (!stopped) blame(scene, "confirmation", null, String(base[hidden]), null, { hidden });
    if (scene.plan.base && scene.plan.base.verdict !== "stop")
      blame(scene, "verdict", null, scene.plan.base.verdict, "stop", { why: hidden });
  }
}

/** Readings on the base: inside the outline (or on it) and not in a cut-out; a place read twice counts with its mean. */
function countedLevels(scene: Scene): Level[] {
  const rings = [
    pointsOf(walkRing(scene.survey.outline)),
    ...scene.survey.cutouts.map((cutout) => pointsOf(walkRing(cutout.ring))),
  ];
  const places = new Map<string, { x: number; y: number; sum: number; n: number }>();
  for (const { xMm, yMm, zMm } of scene.survey.levels) {
    if (!within(rings, xMm, yMm)) continue;
    const key = `${Math.round(xMm * 100) + 0},${Math.round(yMm * 100) + 0}`;
    const place = places.get(key);
    if (place) {
      place.sum += zMm;
      place.n++;
    } else places.set(key, { x: xMm, y: yMm, sum: zMm, n: 1 });
  }
  return [...places.values()].map(({ x, y, sum, n }) => ({ x, y, z: sum / n }));
}

type Rings = (readonly (readonly [number, number])[])[];

/** In the first ring and in none of the others; on a line counts as on the base. */
function within([outline, ...cutouts]: Rings, x: number, y: number): boolean {
  if (!inside(outline!, x, y) && edgeDistance(outline!, x, y) > ON_EDGE_MM) return false;
  return !cutouts.some((ring) => inside(ring, x, y) && edgeDistance(ring, x, y) > ON_EDGE_MM);
}

function inside(ring: readonly (readonly [number, number])[], x: number, y: number): boolean {
  let is = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[i]!;
    const [bx, by] = ring[j]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) is = !is;
  }
  return is;
}

function edgeDistance(ring: readonly (readonly [number, number])[], x: number, y: number): number {
  let best = Infinity;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[j]!;
    const dx = ring[i]![0] - ax;
    const dy = ring[i]![1] - ay;
    const t = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
    const ex = x - ax - t * dx;
    const ey = y - ay - t * dy;
    best = Math.min(best, Math.sqrt(ex * ex + ey * ey));
  }
  return best;
}

/** z = a x + b y + c by normal equations about the middle of the readings; null where they do not span a plane. */
function leastSquares(levels: Level[]): { a: number; b: number } | null {
  const n = levels.length;
  if (n < 3) return null;
  const mean = { x: 0, y: 0, z: 0 };
  for (const p of levels) {
    mean.x += p.x / n;
    mean.y += p.y / n;
    mean.z += p.z / n;
  }
  let [xx, xy, yy, xz, yz] = [0, 0, 0, 0, 0];
  for (const p of levels) {
    const [x, y, z] = [p.x - mean.x, p.y - mean.y, p.z - mean.z];
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * z;
    yz += y * z;
  }
  const det = xx * yy - xy * xy;
  if (det <= 1e-9 * (xx + yy) * (xx + yy)) return null;
  return { a: (xz * yy - yz * xy) / det, b: (yz * xx - xz * xy) / det };
}

type Base = NonNullable<PlanFile["base"]>;

/** Every reading lies within the half width of the plane, and the certificate's points allow no smaller one. */
function judgeZone(scene: Scene, base: Base, levels: Level[]): void {
  const { zone } = base;
  const [c, s] = unitOf(zone.towards);
  let low = Infinity;
  let high = -Infinity;
  for (const p of levels) {
    const r = p.z + ((zone.fall * c) / 100) * p.x + ((zone.fall * s) / 100) * p.y;
    low = Math.min(low, r);
    high = Math.max(high, r);
  }
  const half = (high - low) / 2;
  if (half > zone.halfWidth + HEIGHT_SLACK_MM)
    blame(scene, "zone", null, zone.halfWidth, Math.round(half * 1000) / 1000, {});
  for (const [x, y, z] of zone.points)
    if (!levels.some((p) => Math.abs(p.x - x) < 0.02 && Math.abs(p.y - y) < 0.02 && Math.abs(p.z - z) < 0.02))
      blame(scene, "zone", [0, 0], z, null, { x, y });
  const least = leastHalfWidth(zone.points.map(([x, y, z]) => ({ x, y, z })));
  if (zone.halfWidth > least + HEIGHT_SLACK_MM)
    blame(scene, "zone", null, zone.halfWidth, Math.round(least * 1000) / 1000, {});
}

/**
 * Each part of a base with several falls, from the readings well inside it: no plane stays nearer to them all than the
 * root mean square of the least-squares plane's residuals.
 */
function judgeFacets(scene: Scene, base: Base, levels: Level[]): void {
  if (base.facets.length < 2) return;
  for (const facet of base.facets) {
    const own = levels.filter(
      (p) => inside(facet.ring, p.x, p.y) && edgeDistance(facet.ring, p.x, p.y) > FACET_EDGE_MM,
    );
    const plane = own.length >= 6 ? leastSquares(own) : null;
    if (!plane) continue;
    const rest = own.map((p) => p.z - plane.a * p.x - plane.b * p.y);
    const mean = rest.reduce((sum, r) => sum + r, 0) / rest.length;
    const least = Math.sqrt(rest.reduce((sum, r) => sum + (r - mean) * (r - mean), 0) / rest.length);
    if (facet.halfWidth < least - HEIGHT_SLACK_MM)
      blame(scene, "zone", null, facet.halfWidth, Math.round(least * 1000) / 1000, { x: own[0]!.x, y: own[0]!.y });
  }
}

/**
 * The half width no plane can go below for these points: over weights that sum to nothing, in themselves and times x and
 * y, |sum w z| / sum |w|. For four points the weights are the cofactors; three on a line have their own; a greater
 * number is taken four at a time.
 */
function leastHalfWidth(points: Level[]): number {
  let best = 0;
  const n = Math.min(points.length, 8);
  const from = (weights: number[], own: Level[]): number => {
    let up = 0;
    let all = 0;
    own.forEach((p, i) => {
      up += weights[i]! * p.z;
      all += Math.abs(weights[i]!);
    });
    return all > 0 ? Math.abs(up) / all : 0;
  };
  const area = (a: Level, b: Level, c: Level): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++)
      for (let k = j + 1; k < n; k++) {
        const [p, q, r] = [points[i]!, points[j]!, points[k]!];
        const spread = Math.max(
          (q.x - p.x) * (q.x - p.x) + (q.y - p.y) * (q.y - p.y),
          (r.x - p.x) * (r.x - p.x) + (r.y - p.y) * (r.y - p.y),
        );
        if (Math.abs(area(p, q, r)) <= 1e-7 * spread) {
          const along = (a: Level, b: Level): number =>
            (b.x - a.x) * (r.x - p.x + q.x - p.x) + (b.y - a.y) * (r.y - p.y + q.y - p.y);
          best = Math.max(best, from([along(q, r), along(r, p), along(p, q)], [p, q, r]));
        }
        for (let l = k + 1; l < n; l++) {
          const t = points[l]!;
          best = Math.max(best, from([area(q, r, t), -area(p, r, t), area(p, q, t), -area(p, q, r)], [p, q, r, t]));
        }
      }
  return best;
}

/** Gaps that certainly are: three readings evenly spaced on a line no longer than the straightedge, and bars as read. */
function judgeStraightedge(scene: Scene, base: Base, levels: Level[]): void {
  const found = base.straightedge?.gap ?? 0;
  const { straightedge } = scene.job.base.limits;
  const rings = [
    pointsOf(walkRing(scene.survey.outline)),
    ...scene.survey.cutouts.map((cutout) => pointsOf(walkRing(cutout.ring))),
  ];
  let least = 0;
  for (const bar of scene.survey.straightedges) least = Math.max(least, bar.gapMm);
  const cell = straightedge / 2;
  const cells = new Map<string, Level[]>();
  const exact = new Map<string, Level>();
  for (const p of levels) {
    const key = `${Math.floor(p.x / cell)},${Math.floor(p.y / cell)}`;
    const list = cells.get(key);
    if (list) list.push(p);
    else cells.set(key, [p]);
    exact.set(`${Math.round(p.x)},${Math.round(p.y)}`, p);
  }
  let steps = 2_000_000;
  for (const q of levels) {
    const cx = Math.floor(q.x / cell);
    const cy = Math.floor(q.y / cell);
    for (let i = cx - 1; i <= cx + 1; i++)
      for (let j = cy - 1; j <= cy + 1; j++)
        for (const p of cells.get(`${i},${j}`) ?? []) {
          if (--steps < 0) break;
          const dx = q.x - p.x;
          const dy = q.y - p.y;
          if (dx < 0 || (dx === 0 && dy <= 0) || dx * dx + dy * dy > cell * cell) continue;
          const r = exact.get(`${Math.round(q.x + dx)},${Math.round(q.y + dy)}`);
          if (!r || Math.abs(r.x - q.x - dx) > 0.01 || Math.abs(r.y - q.y - dy) > 0.01) continue;
          const gap = (p.z + r.z) / 2 - q.z;
          if (gap <= least) continue;
          let clear = true;
          for (let k = 1; k < 40 && clear; k++)
            clear = within(rings as Rings, p.x + ((r.x - p.x) * k) / 40, p.y + ((r.y - p.y) * k) / 40);
          if (clear) least = gap;
        }
  }
  if (found < least - HEIGHT_SLACK_MM) blame(scene, "straightedge", null, found, Math.round(least * 1000) / 1000, {});
}

/** A verdict no better than the figures and the survey allow. */
function judgeWord(scene: Scene, base: Base, levels: Level[], fall: number): void {
  const { limits } = scene.job.base;
  const worse = (limit: string, why: string): void => {
    blame(scene, "verdict", null, base.verdict, limit, { why });
  };
  const better = (least: Base["verdict"]): boolean => RANK[base.verdict] < RANK[least];
  const uneven = Math.max(base.straightedge?.gap ?? 0, ...scene.survey.straightedges.map((bar) => bar.gapMm));
  if (uneven > limits.unevenness + HEIGHT_SLACK_MM && better("prepare")) worse("prepare", "unevenness");
  const facets = base.facets.length > 1 ? base.facets : [{ halfWidth: base.zone.halfWidth, fall }];
  if (facets.some((f) => f.halfWidth > limits.deviation + HEIGHT_SLACK_MM) && better("prepare"))
    worse("prepare", "deviation");
  if (facets.some((f) => f.fall > limits.fallMax + FALL_SLACK) && better("prepare")) worse("prepare", "fallMax");
  if (facets.some((f) => f.fall < limits.fallMin - FALL_SLACK) && base.verdict === "accept") worse("prepare", "fall");
  if (base.verdict === "accept" && scene.survey.straightedges.length === 0 && wideGrid(scene, levels))
    worse("not-proven", "grid");
}

const RANK = { accept: 0, "not-proven": 1, prepare: 2, stop: 3 } as const;

/** Whether some place of the base is further from a reading than any place of a square grid of that width. */
function wideGrid(scene: Scene, levels: Level[]): boolean {
  const rings = [
    pointsOf(walkRing(scene.survey.outline)),
    ...scene.survey.cutouts.map((cutout) => pointsOf(walkRing(cutout.ring))),
  ];
  const reach = GRID_MM / Math.SQRT2 + 15;
  const cells = new Map<string, Level[]>();
  for (const p of levels) {
    const key = `${Math.floor(p.x / reach)},${Math.floor(p.y / reach)}`;
    const list = cells.get(key);
    if (list) list.push(p);
    else cells.set(key, [p]);
  }
  const xs = rings[0]!.map((p) => p[0]);
  const ys = rings[0]!.map((p) => p[1]);
  const [x0, x1] = [Math.min(...xs), Math.max(...xs)];
  const [y0, y1] = [Math.min(...ys), Math.max(...ys)];
  const step = Math.max(70, Math.sqrt(((x1 - x0) * (y1 - y0)) / 20_000));
  for (let x = x0 + step / 2; x < x1; x += step)
    for (let y = y0 + step / 2; y < y1; y += step) {
      const [i, j] = [Math.floor(x / reach), Math.floor(y / reach)];
      let near = false;
      for (let a = i - 1; a <= i + 1 && !near; a++)
        for (let b = j - 1; b <= j + 1 && !near; b++)
          near = (cells.get(`${a},${b}`) ?? []).some(
            (p) => (p.x - x) * (p.x - x) + (p.y - y) * (p.y - y) <= reach * reach,
          );
      if (!near && within(rings as Rings, x, y)) return true;
    }
  return false;
}
