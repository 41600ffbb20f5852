/** Spoils one ring of a job: crossing, spikes, tiny sides, arcs of every size, far away, tiny and long; or the fixed areas over it. */
import type { Chance } from "../fixtures/random.ts";

type Obj = Record<string, unknown>;
type Vertex = number[];

export function spoilRing(job: Obj, c: Chance): void {
  const site = job.site as Obj | undefined;
  if (typeof site !== "object" || site === null || !isRing(site.outline)) return;
  const outline = site.outline;
  const areas = c.pick(["cutouts", "noDrill", "keepClear", "loose"]);
  const how = c.int(0, 7);
  if (how <= 2) {
    site.outline = twist(outline, c);
    // sides are counted: where the count is off the file is refused before anything is planned
    if (Array.isArray(site.sides) && !c.once(5))
      site.sides = (site.outline as Vertex[]).map((_, i) => (site.sides as unknown[])[i] ?? "wall");
  } else if (how === 3)
    site[areas] = [...listOf(site[areas]), { ring: c.once(3) ? outline.map((v) => [...v]) : patch(outline, c) }];
  else if (how === 4) site[areas] = Array.from({ length: c.int(2, 30) }, () => ({ ring: patch(outline, c) }));
  else if (how === 5) {
    const list = listOf(site[areas]);
    const at = list[0] as Obj | undefined;
    if (at && isRing(at.ring)) at.ring = twist(at.ring, c);
  } else if (how === 6) site.slab = c.once(3) ? null : scaled(outline, c.pick([0.3, 0.9, 0.999, 1, 1.001, 1.2, 50]));
  else {
    const [a, b] = [point(outline, c), point(outline, c)];
    site.baseJoints = Array.from({ length: c.int(1, 8) }, () => [a, c.once(4) ? a : b, point(outline, c)]);
    const survey = (typeof job.survey === "object" && job.survey !== null ? job.survey : {}) as Obj;
    job.survey = survey;
    survey.straightedges = [{ from: point(outline, c), to: c.once(9) ? a : point(outline, c), gap: c.int(0, 90) / 3 }];
    survey.levels = levels(outline, c);
  }
}

function isRing(value: unknown): value is Vertex[] {
  return (
    Array.isArray(value) &&
    value.length > 0 &&
    value.every((v) => Array.isArray(v) && v.length > 1 && v.every((n) => typeof n === "number"))
  );
}
const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);

function twist(ring: Vertex[], c: Chance): Vertex[] {
  const out = ring.map((v) => [...v]);
  const n = out.length;
  const i = c.int(0, n - 1);
  const a = out[i]!;
  const b = out[(i + 1) % n]!;
  const middle = [(a[0]! + b[0]!) / 2, (a[1]! + b[1]!) / 2];
  switch (c.int(0, 15)) {
    case 0:
      [out[i], out[(i + 1) % n]] = [b, a];
      return out;
    case 1:
      out.splice(i, 0, [...a]);
      return out;
    case 2:
      out.splice(i + 1, 0, middle);
      return out;
    case 3:
      out.splice(i + 1, 0, [a[0]! + c.pick([0.001, 0.0004, 0.002, 0.01, 1]), a[1]! + c.pick([0, 0.001, 0.5])]);
      return out;
    case 4:
      out.splice(i + 1, 0, [middle[0]! + (b[1]! - a[1]!) * 2, middle[1]! - (b[0]! - a[0]!) * 2], middle);
      return out;
    case 5:
    case 6:
      out[i] = [
        a[0]!,
        a[1]!,
        c.pick([1e9, -1e9, 13, -13, 12.9, 1, -1, 0.999, 0.01, -0.01, 1e-6, 1e-320, -0.4, 0.4, 3, -3]),
      ];
      return out;
    case 7:
      return out.map((v) => [v[0]!, a[1]!]);
    case 8:
      return scaled(out, c.pick([1e-3, 0.02, 0.1, 3, 1e4, 1e9]));
    case 9:
      return out.map(([x, y, ...rest]) => [x! * c.pick([1, 1, 0.004]), y!, ...rest]);
    case 10:
      return out.map(([x, y, ...rest]) => [x! + 9e9, y! - 9e9, ...rest]);
    case 11:
      return [...out, ...out];
    case 12:
      return out.slice(0, c.int(0, 2));
    case 13: {
      // a saw edge of many small teeth
      const teeth = c.int(3, 60);
      const points: Vertex[] = [];
      for (let k = 1; k < teeth; k++) {
        const t = k / teeth;
        const off = k % 2 === 0 ? 0 : c.pick([0.5, 3, 20]) / 1000;
        points.push([
          a[0]! + (b[0]! - a[0]!) * t + (b[1]! - a[1]!) * off,
          a[1]! + (b[1]! - a[1]!) * t - (b[0]! - a[0]!) * off,
        ]);
      }
      out.splice(i + 1, 0, ...points);
      return out;
    }
    case 14:
      out[i] = [a[0]! + c.int(-3000, 3000), a[1]! + c.int(-3000, 3000), ...a.slice(2)];
      return out;
    default:
      return out.map((v) => v.map((n) => n + c.int(-40, 40) / 1000));
  }
}

function scaled(ring: Vertex[], by: number): Vertex[] {
  const [x0, y0] = [ring[0]![0]!, ring[0]![1]!];
  return ring.map(([x, y, ...rest]) => [x0 + (x! - x0) * by, y0 + (y! - y0) * by, ...rest]);
}

/** A point in or about the outline. */
function point(ring: Vertex[], c: Chance): Vertex {
  const [a, b] = [c.pick(ring), c.pick(ring)];
  const t = c.pick([0, 0.25, 0.5, 0.7, 1, 1.1, -0.2]);
  return [a[0]! + (b[0]! - a[0]!) * t, a[1]! + (b[1]! - a[1]!) * t];
}

function patch(ring: Vertex[], c: Chance): Vertex[] {
  const [x, y] = point(ring, c) as [number, number];
  const [w, h] = [c.pick([0.5, 5, 60, 150, 600, 9000]), c.pick([0.5, 5, 60, 150, 600, 9000])];
  const bulge = c.pick([0, 0, 0, 0.41421356, 1, -0.2]);
  return [
    [x, y, bulge],
    [x + w, y, bulge],
    [x + w, y + h, bulge],
    [x, y + h, bulge],
  ];
}

function levels(ring: Vertex[], c: Chance): Vertex[] {
  const kind = c.int(0, 5);
  const n = c.int(1, 60);
  if (kind === 0)
    return [
      [...point(ring, c), 0],
      [...point(ring, c), 1],
    ].slice(0, c.int(0, 2));
  const [a, b] = [point(ring, c), point(ring, c)];
  return Array.from({ length: n }, (_, k) => {
    if (kind === 1) return [...a, k % 3];
    if (kind === 2) return [a[0]! + ((b[0]! - a[0]!) * k) / n, a[1]! + ((b[1]! - a[1]!) * k) / n, c.int(0, 20)];
    const z = kind === 3 ? 0 : kind === 4 ? c.int(-10, 10) / 4 : c.pick([0, 1e9, -1e9, 1e-9]);
    const p = [point(ring, c), point(ring, c)];
    return [(p[0]![0]! + p[1]![0]!) / 2, (p[0]![1]! + p[1]![1]!) / 2, z];
  });
}
