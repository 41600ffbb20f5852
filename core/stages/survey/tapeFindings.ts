import type { Job } from "../../job/job.ts";
import type { SurveyFinding } from "./findings.ts";
import type { Points } from "./handed.ts";
import type { Adjustment } from "./record.ts";
import { type Snooped, W_LIMIT } from "./snoop.ts";

/** Less than this share of a slip would show in the reading's own residual: nothing really checks it. */
const UNCONTROLLED = 0.02;
/** A mark this many tape deviations loose is held, but badly. */
const WEAK_SIGMAS = 5;
const NAMED = 12;

/** What the adjustment says of the tapes: misread, contradicting, unchecked, weak, or fitting two shapes. */
export function tapeFindings(
  job: Job,
  marks: readonly string[],
  snooped: Snooped,
  adjustment: Adjustment,
  rival: { here: Points; other: Points } | null,
): SurveyFinding[] {
  const places = new Map(adjustment.marks.map((mark) => [mark.name, mark]));
  const middle = (from: string, to: string): readonly [number, number] => {
    const [a, b] = [places.get(from)!, places.get(to)!];
    return [round((a.xMm + b.xMm) / 2), round((a.yMm + b.yMm) / 2)];
  };
  return [
    ...misreadFindings(snooped, adjustment, middle),
    ...contradiction(job, marks, snooped, adjustment, middle),
    ...mirror(job, marks, rival, middle),
    ...uncontrolled(job, marks, snooped),
    ...weak(job, adjustment),
  ];
}

type Middle = (from: string, to: string) => readonly [number, number];
const WARN = { rule: "survey", level: "warn", releasedBy: "reading" } as const;

function misreadFindings({ misread }: Snooped, adjustment: Adjustment, middle: Middle): SurveyFinding[] {
  return misread.map(({ index, w }) => {
    const { from, to, measuredMm, adjustedMm } = adjustment.ties[index]!;
    const off = round(measuredMm - adjustedMm);
    const data = {
      from,
      to,
      measured: measuredMm,
      should: round(adjustedMm),
      off,
      w: round(Math.abs(w)),
      limit: W_LIMIT,
    };
    return { ...WARN, code: "tape", at: middle(from, to), found: measuredMm, limit: round(adjustedMm), data };
  });
}

function contradiction(
  job: Job,
  marks: readonly string[],
  { suspects, suspectsOff, likely }: Snooped,
  adjustment: Adjustment,
  middle: Middle,
): SurveyFinding[] {
  if (suspects.length === 0) return [];
  const names = suspects.slice(0, NAMED).map((i) => `${job.survey.ties[i]![0]}-${job.survey.ties[i]![1]}`);
  if (likely !== null) {
    const { from, to, measuredMm, adjustedMm } = adjustment.ties[likely]!;
    const data = {
      from,
      to,
      measured: measuredMm,
      should: round(adjustedMm),
      off: round(measuredMm - adjustedMm),
      suspects: names,
    };
    return [{ ...WARN, code: "tapeLikely", at: middle(from, to), found: measuredMm, limit: round(adjustedMm), data }];
  }
  const off = round(Math.min(...suspectsOff.map(Math.abs)));
  const [from, to] = untied(job, marks);
  const [a, b] = job.survey.ties[suspects[0]!]!;
  return [
    {
      ...WARN,
      code: "tapeContradict",
      at: middle(a, b),
      found: off,
      limit: null,
      data: { suspects: names, offs: suspectsOff.slice(0, NAMED).map(round), off, from, to },
    },
  ];
}

/** The two shapes part most between two marks: that tie decides. */
function mirror(
  job: Job,
  marks: readonly string[],
  rival: { here: Points; other: Points } | null,
  middle: Middle,
): SurveyFinding[] {
  if (!rival) return [];
  const tied = tiedPairs(job);
  let best = { from: "", to: "", here: 0, other: 0, apart: 0 };
  marks.forEach((from, i) => {
    marks.forEach((to, j) => {
      if (j <= i || tied.has(key(from, to))) return;
      const [here, other] = [distance(rival.here, i, j), distance(rival.other, i, j)];
      const apart = Math.abs(here - other);
      if (apart > best.apart) best = { from, to, here: round(here), other: round(other), apart };
    });
  });
  if (best.apart === 0) return [];
  const data = { mark: best.to, from: best.from, to: best.to, here: best.here, other: best.other };
  return [{ ...WARN, code: "tapeMirror", at: middle(best.from, best.to), found: best.here, limit: best.other, data }];
}

function uncontrolled(job: Job, marks: readonly string[], { adjustment }: Snooped): SurveyFinding[] {
  const free = adjustment.obs.filter((one) => one.redundancy < UNCONTROLLED);
  if (free.length === 0) return [];
  const ties = free.slice(0, NAMED).map((one) => `${one.from}-${one.to}`);
  const [from, to] = untied(job, marks);
  const data = { ties, count: free.length, from, to };
  return [
    {
      ...WARN,
      level: adjustment.dof === 0 ? "warn" : "note",
      code: "tapeUncontrolled",
      at: null,
      found: free.length,
      limit: 0,
      data,
    },
  ];
}

function weak(job: Job, adjustment: Adjustment): SurveyFinding[] {
  const limit = WEAK_SIGMAS * job.survey.sigma.tape;
  // the shape's weakness, not the readings': contradicting tapes have their own finding
  const unit = Math.max(1, adjustment.s0 ?? 1);
  return adjustment.marks
    .map((mark) => ({ mark, sigma: Math.sqrt(mark.sigmaXMm * mark.sigmaXMm + mark.sigmaYMm * mark.sigmaYMm) / unit }))
    .filter(({ sigma }) => sigma > limit)
    .slice(0, NAMED)
    .map(({ mark, sigma }) => {
      const data = { mark: mark.name, sigma: round(sigma), limit };
      return { ...WARN, code: "tapeWeak", at: [round(mark.xMm), round(mark.yMm)], found: round(sigma), limit, data };
    });
}

/** Two marks not yet tied, as far apart round the ring as can be; two neighbours where all are tied (measure again). */
function untied(job: Job, marks: readonly string[]): [string, string] {
  const tied = tiedPairs(job);
  for (let away = Math.floor(marks.length / 2); away >= 1; away--) {
    for (let i = 0; i < marks.length; i++) {
      const [a, b] = [marks[i]!, marks[(i + away) % marks.length]!];
      if (!tied.has(key(a, b))) return [a, b];
    }
  }
  return [marks[0]!, marks[Math.floor(marks.length / 2)]!];
}

function tiedPairs(job: Job): Set<string> {
  return new Set(job.survey.ties.map(([a, b]) => key(a, b)));
}

function key(a: string, b: string): string {
  return JSON.stringify(a < b ? [a, b] : [b, a]);
}

function distance(points: Points, i: number, j: number): number {
  const [dx, dy] = [points[i]![0] - points[j]![0], points[i]![1] - points[j]![1]];
  return Math.sqrt(dx * dx + dy * dy);
}

function round(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}
