import type { Job, Vertex } from "../../job/job.ts";
import { adjustDistances, type DistanceNetwork } from "../../solve/adjust.ts";
import type { SurveyFinding } from "./findings.ts";
import { handedness, isSimple, type Points, signedArea } from "./handed.ts";
import { looseMarks } from "./loose.ts";
import type { Adjustment } from "./record.ts";
import type { SiteProblem } from "./ring.ts";
import { firstShapes } from "./shape.ts";
import { type Snooped, snoop } from "./snoop.ts";
import { tapeFindings } from "./tapeFindings.ts";

export type Taped =
  | { ok: true; outline: Vertex[]; adjustment: Adjustment; findings: SurveyFinding[] }
  | { ok: false; problems: SiteProblem[] };

/** More marks than anyone ties by tape in a day; dense equations stay quick. */
const MARKS_MAX = 60;
/** Two shapes whose weighted misfits differ by less fit the tapes alike. */
const ALIKE = 9;
/** Shapes nearer than this, corner by corner, are one shape; guesses as near lead to one shape. */
const SAME_MM = 20;
const GUESSED_MM = 15;
const GUESSES = 48;

/**
 * The outline from tapes between marks, by least squares. The first mark is the origin, the second lies on +x; marks are
 * taken to run counter-clockwise unless readings in that frame lie on the other side. A misread tape is looked for,
 * named and left out in the open. Where ties are missing, each missing one is a problem.
 */
export function outlineByTape(job: Job): Taped {
  const marks = job.site.marks!;
  const ties = job.survey.ties;
  const known = new Set(marks);
  // told of where the job is checked; without them nothing can be said of the shape
  const unusable = ties.some(([from, to]) => from === to || !known.has(from) || !known.has(to));
  if (unusable || known.size < marks.length || marks.length < 3) return { ok: false, problems: [] };
  if (marks.length > MARKS_MAX) {
    return {
      ok: false,
      problems: [{ path: ["site", "marks"], code: "manyMarks", data: { found: marks.length, limit: MARKS_MAX } }],
    };
  }
  const loose = looseMarks(marks, ties);
  if (loose.length > 0) return { ok: false, problems: loose };
  const shapes = fittingShapes(job, marks);
  const best = shapes[0];
  if (!best) return { ok: false, problems: [weakMark(job, marks)] };
  const snooped = snoop(networkOf(job, marks, best.points));
  if (!snooped) return { ok: false, problems: [weakMark(job, marks)] };
  const hand = handedness(job, pointsOf(marks, snooped));
  const adjustment = recordOf(job, marks, snooped, hand.clockwise);
  const rival = shapes.find((shape) => shape !== best && shape.simple && differs(shape.points, best.points)) ?? null;
  const findings = tapeFindings(job, marks, snooped, adjustment, rival && { here: best.points, other: rival.points });
  if (hand.clockwise) findings.push(clockwise(hand.readings));
  const outline = adjustment.marks.map(({ xMm, yMm }): Vertex => [round(xMm), round(yMm), 0]);
  return { ok: true, outline, adjustment, findings };
}

/** Ties are for marks; where the outline came by coordinates they wait unused, and that is said. */
export function tiesUnused(job: Job): SurveyFinding[] {
  const count = job.survey.ties.length;
  if (job.site.marks !== null || count === 0) return [];
  return [
    {
      code: "tiesUnused",
      rule: "survey",
      level: "note",
      at: null,
      found: count,
      limit: null,
      releasedBy: null,
      data: { ties: count },
    },
  ];
}

interface FittingShape {
  points: Points;
  vtpv: number;
  simple: boolean;
}

/** Every shape that fits the tapes about as well as the best, the likeliest first; counter-clockwise, in the datum. */
function fittingShapes(job: Job, marks: readonly string[]): FittingShape[] {
  const index = new Map(marks.map((mark, i) => [mark, i]));
  const ties = job.survey.ties.map(([from, to, mm]) => [index.get(from)!, index.get(to)!, mm] as const);
  const fitted: FittingShape[] = [];
  const guesses: Points[] = [];
  for (const shape of firstShapes(marks.length, ties)) {
    const guess = inDatum(shape);
    if (guesses.length < GUESSES && !guesses.some((one) => !differs(one, guess, GUESSED_MM))) guesses.push(guess);
  }
  for (const guess of guesses) {
    const result = adjustDistances(networkOf(job, marks, guess));
    if (!result.ok) continue;
    const points = inDatum(marks.map((mark): [number, number] => [result.points[mark]!.x, result.points[mark]!.y]));
    if (fitted.some((one) => !differs(one.points, points))) continue;
    fitted.push({ points, vtpv: result.vtpv, simple: isSimple(points) });
  }
  const least = Math.min(...fitted.map((one) => one.vtpv));
  const alike = fitted.filter((one) => one.vtpv < least + ALIKE);
  // a ring that crosses itself is no outline; of two that fit, the one that holds more ground is the likelier
  return alike.sort((a, b) => Number(b.simple) - Number(a.simple) || signedArea(b.points) - signedArea(a.points));
}

/** First mark at the origin, second on +x, the ring counter-clockwise. */
function inDatum(shape: readonly (readonly [number, number])[]): Points {
  const [x0, y0] = shape[0]!;
  const [dx, dy] = [shape[1]![0] - x0, shape[1]![1] - y0];
  const length = Math.sqrt(dx * dx + dy * dy) || 1;
  const [c, s] = [dx / length, dy / length];
  const turned = shape.map(([x, y]): [number, number] => [(x - x0) * c + (y - y0) * s, (y - y0) * c - (x - x0) * s]);
  const sign = signedArea(turned) < 0 ? -1 : 1;
  return turned.map(([x, y], i) => [x + 0, i < 2 ? 0 : sign * y + 0]);
}

function differs(a: Points, b: Points, byMm: number = SAME_MM): boolean {
  return a.some(([x, y], i) => Math.abs(x - b[i]![0]) > byMm || Math.abs(y - b[i]![1]) > byMm);
}

function networkOf(job: Job, marks: readonly string[], guess: Points): DistanceNetwork {
  const [first, second, ...rest] = marks;
  const approx: Record<string, readonly [number, number]> = Object.create(null);
  [second!, ...rest].forEach((mark, i) => {
    approx[mark] = guess[i + 1]!;
  });
  const fixed: Record<string, readonly [number, number]> = Object.create(null);
  fixed[first!] = [0, 0];
  return { fixed, approx, obs: job.survey.ties, sd: job.survey.sigma.tape, held: [{ name: second!, axis: "y" }] };
}

function pointsOf(marks: readonly string[], { adjustment }: Snooped): Points {
  return marks.map((mark) => [adjustment.points[mark]!.x, adjustment.points[mark]!.y]);
}

function recordOf(
  job: Job,
  marks: readonly string[],
  { adjustment, misread, likely }: Snooped,
  clockwise: boolean,
): Adjustment {
  const dropped = new Map<number, number | null>(misread.map(({ index, w }) => [index, w]));
  if (likely !== null) dropped.set(likely, null);
  const sign = clockwise ? -1 : 1;
  let next = 0;
  const ties = job.survey.ties.map(([from, to, measuredMm], i) => {
    const w = dropped.get(i);
    if (w === undefined) {
      const { adjusted, residual, sigma, w: test } = adjustment.obs[next++]!;
      return {
        from,
        to,
        measuredMm,
        adjustedMm: adjusted,
        residualMm: residual,
        sigmaMm: sigma,
        w: test,
        doubtful: false,
      };
    }
    const [a, b] = [adjustment.points[from]!, adjustment.points[to]!];
    const adjustedMm = Math.sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
    return { from, to, measuredMm, adjustedMm, residualMm: adjustedMm - measuredMm, sigmaMm: 0, w, doubtful: true };
  });
  return {
    marks: marks.map((name) => {
      const { x, y, sigmaX, sigmaY } = adjustment.points[name]!;
      return { name, xMm: x, yMm: sign * y + 0, sigmaXMm: sigmaX, sigmaYMm: sigmaY };
    }),
    ties,
    redundancy: adjustment.dof,
    s0: adjustment.s0,
  };
}

/** The ties would hold a shape in general, but not this one: marks in a line, or a first guess nothing leads on from. */
function weakMark(job: Job, marks: readonly string[]): SiteProblem {
  const count = (mark: string): number => job.survey.ties.filter(([a, b]) => a === mark || b === mark).length;
  const mark = [...marks].sort((a, b) => count(a) - count(b))[0]!;
  const tied = new Set(job.survey.ties.flatMap(([a, b]) => (a === mark ? [b] : b === mark ? [a] : [])));
  const at = marks.indexOf(mark);
  const round = marks.map((_, k) => marks[(at + Math.floor(marks.length / 2) + k) % marks.length]!);
  const to = round.find((other) => other !== mark && !tied.has(other)) ?? marks.find((other) => other !== mark)!;
  return { path: ["survey", "ties"], code: "looseMark", data: { mark, from: mark, to, ties: count(mark) } };
}

function clockwise(readings: number): SurveyFinding {
  return {
    code: "tapeClockwise",
    rule: "survey",
    level: "note",
    at: null,
    found: null,
    limit: null,
    releasedBy: null,
    data: { readings },
  };
}

function round(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}
