/** What was brought, in the site's frame and millimetres, once axes and unit are known; and taking it into a job. */
import type { DraftVertex, JobDraft } from "../edits/draft.ts";
import { directionOf } from "../geometry/direction.ts";
import type { Answers, AskName, Brought, FileUnit } from "./brought.ts";

export interface Settled {
  points: { x: number; y: number; z: number | null; name: string }[];
  rings: { vertices: DraftVertex[]; name: string }[];
  /** Round everything taken, mm. */
  box: { x0: number; y0: number; x1: number; y1: number } | null;
  /** Moved by this, mm, because the file lies far from zero; 0, 0 where it does not. */
  shift: readonly [number, number];
}

/** Exact: inch and foot 1959, US survey foot 1200/3937 m. */
const MM_PER: Record<Exclude<FileUnit, "deg">, number> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: 25.4,
  ft: 304.8,
  ftUs: 1_200_000 / 3937,
};
/** Farther than this from zero a site is moved there. */
const FAR_MM = 200_000;

/** What still has to be said before anything can be settled. */
export function openAsks(brought: Brought, answers: Partial<Answers>): AskName[] {
  return brought.asks.filter((ask) => answers[ask] == null);
}

/** Null while something is not said. */
export function settle(brought: Brought, answers: Partial<Answers>): Settled | null {
  const unit = answers.unit ?? brought.says.unit;
  const axes = answers.axes ?? brought.says.axes;
  if (!unit || !axes || openAsks(brought, answers).length > 0) return null;
  const swap = axes === "yx";
  const plane =
    unit === "deg"
      ? degreePlane(brought, swap)
      : (x: number, y: number) => [x * MM_PER[unit], y * MM_PER[unit]] as const;
  const heights = unit === "deg" ? 1000 : MM_PER[unit];
  const to = (a: number, b: number) => (swap ? plane(b, a) : plane(a, b));
  const points = brought.points.map(({ a, b, h, name }) => {
    const [x, y] = to(a, b);
    return { x, y, z: h === null ? null : tenth(h * heights), name };
  });
  const rings = brought.lines
    .filter(({ closed, vertices }) => closed && vertices.length > 2)
    .map(({ vertices, name }) => ({
      name,
      // first and second changed over mirrors the plan, and an arc with it
      vertices: vertices.map(
        ([a, b, bulge]): DraftVertex => (bulge === 0 ? [...to(a, b)] : [...to(a, b), swap ? -bulge : bulge]),
      ),
    }));
  return moved(points, rings);
}

function moved(points: Settled["points"], rings: Settled["rings"]): Settled {
  const box = boxOf(points, rings);
  const far = box !== null && (Math.abs(box.x0) > FAR_MM || Math.abs(box.y0) > FAR_MM);
  const shift = far
    ? ([Math.floor(box.x0 / 1000) * 1000, Math.floor(box.y0 / 1000) * 1000] as const)
    : ([0, 0] as const);
  const at = (x: number, y: number): [number, number] => [tenth(x - shift[0]), tenth(y - shift[1])];
  return {
    points: points.map((point) => {
      const [x, y] = at(point.x, point.y);
      return { ...point, x, y };
    }),
    rings: rings.map(({ vertices, name }) => ({
      name,
      vertices: vertices.map(([x, y, bulge]): DraftVertex => (bulge === undefined ? at(x, y) : [...at(x, y), bulge])),
    })),
    box: box && { x0: box.x0 - shift[0], y0: box.y0 - shift[1], x1: box.x1 - shift[0], y1: box.y1 - shift[1] },
    shift,
  };
}

function boxOf(points: Settled["points"], rings: Settled["rings"]): Settled["box"] {
  const box = {
    x0: Number.POSITIVE_INFINITY,
    y0: Number.POSITIVE_INFINITY,
    x1: Number.NEGATIVE_INFINITY,
    y1: Number.NEGATIVE_INFINITY,
  };
  const grow = (x: number, y: number) => {
    box.x0 = Math.min(box.x0, x);
    box.y0 = Math.min(box.y0, y);
    box.x1 = Math.max(box.x1, x);
    box.y1 = Math.max(box.y1, y);
  };
  for (const { x, y } of points) grow(x, y);
  for (const { vertices } of rings) for (const [x, y] of vertices) grow(x, y);
  return box.x0 > box.x1 ? null : box;
}

/**
 * Longitude and latitude to millimetres on the plane that touches the WGS 84 ellipsoid in the middle of what was brought
 * (semi-axis 6 378 137 m, e2 0.00669437999014; radii of curvature in the meridian and across it). Over 1 km the plane is
 * wrong by less than 0.1 mm in 100 m.
 */
function degreePlane(brought: Brought, swap: boolean): (lon: number, lat: number) => readonly [number, number] {
  const all = [
    ...brought.points.map(({ a, b }) => [a, b] as const),
    ...brought.lines.flatMap(({ vertices }) => vertices.map(([a, b]) => [a, b] as const)),
  ];
  const first = all[0] ?? [0, 0];
  const [lon0, lat0] = swap ? [first[1], first[0]] : first;
  const [cos, sin] = directionOf(Math.max(-89, Math.min(89, lat0)));
  const [a, e2] = [6_378_137_000, 0.00669437999014];
  const w = Math.sqrt(1 - e2 * sin * sin);
  const degree = 0.017453292519943295;
  const [north, east] = [((a * (1 - e2)) / (w * w * w)) * degree, (a / w) * cos * degree];
  return (lon, lat) => [(lon - lon0) * east, (lat - lat0) * north];
}

export interface Taking {
  levels: boolean;
  /** Which ring becomes the outline; null: none. */
  ring: number | null;
}

/** Takes what was brought into a job; changes the job given. Levels take the place of earlier ones; a new outline has walls all round. */
export function takeInto(job: JobDraft, settled: Settled, taking: Taking): void {
  const ring = taking.ring === null ? null : settled.rings[taking.ring];
  if (ring) {
    job.site.outline = ring.vertices.map((vertex) => [...vertex] as DraftVertex);
    job.site.sides = ring.vertices.map(() => "wall");
    delete job.site.marks;
    delete job.site.offsets;
    delete job.site.slab;
    if (job.survey?.ties) delete job.survey.ties;
    if (job["x-measure"]?.walk) {
      const { walk: _walk, ...rest } = job["x-measure"];
      if (Object.keys(rest).length > 0) job["x-measure"] = rest;
      else delete job["x-measure"];
    }
  }
  if (!taking.levels) return;
  const levels = settled.points.flatMap(({ x, y, z }): [number, number, number][] => (z === null ? [] : [[x, y, z]]));
  job.survey = { ...job.survey, levels };
}

function tenth(mm: number): number {
  return Math.round(mm * 10) / 10 + 0;
}
