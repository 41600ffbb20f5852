/** Laws on random jobs: fixed seeds, odd shapes. What fails prints its seed. */
import { Clipper, FillRule, type Path64, type Paths64 } from "clipper2-ts";
import { describe, expect, test } from "vitest";
import { proveJob } from "../../desk/prove.ts";
import { chance, randomJob } from "../../fixtures/random.ts";
import { mirrorJob, turnJob } from "../../fixtures/turn.ts";
import { en } from "../../words/en/index.ts";
import { sayer } from "../../words/say.ts";
import { type CheckResult, checkPlan } from "../check/check.ts";
import { directionOf } from "../geometry/direction.ts";
import type { Ring } from "../geometry/frame.ts";
import { loadJob } from "./load.ts";
import { makePlan } from "./make.ts";
import type { PlanFile } from "./plan.ts";
import type { PlanRecord } from "./record.ts";
import { allFindings, toPlanFile } from "./write.ts";

const SEEDS = 1000;
const say = sayer(en);

interface Planned {
  record: PlanRecord;
  plan: PlanFile;
  check(): CheckResult;
}

function planned(raw: unknown, name: string): Planned | null {
  const read = loadJob(JSON.stringify(raw), name);
  if (!read.ok) return null;
  const loaded = read.value;
  const record = makePlan(loaded);
  const plan = toPlanFile(record, say, "");
  return { record, plan, check: () => checkPlan({ ...loaded.read, survey: loaded.survey }, plan, true) };
}

describe("random jobs", () => {
  test(`the checker accepts every plan, boards are never below the bound, areas add up (${SEEDS} seeds)`, {
    timeout: 600_000,
  }, () => {
    const refused: string[] = [];
    let plans = 0;
    let otherWay = 0;
    for (let seed = 1; seed <= SEEDS; seed++) {
      const read = loadJob(JSON.stringify(randomJob(seed)), `seed ${seed}`);
      if (!read.ok) continue;
      const made = proveJob(read.value, en);
      plans++;
      if (made.plan.reasons.some(({ code }) => code === "shiftOther" || code === "rowsOther")) otherWay++;
      for (const b of made.check.breaches.slice(0, 2))
        refused.push(`seed ${seed}: ${b.rule} ${b.code} at ${b.at} found ${b.found} limit ${b.limit}`);
      if (made.plan.figures.boards < made.plan.figures.boardsAtLeast) refused.push(`seed ${seed}: below the bound`);
      const { missingMm2, slackMm2 } = areasOf(made);
      if (Math.abs(missingMm2) > slackMm2)
        refused.push(`seed ${seed}: ${missingMm2} mm2 of ${slackMm2} unaccounted for`);
    }
    expect(refused).toEqual([]);
    // Some random outlines cross themselves and are rightly refused; most must be plans.
    expect(plans).toBeGreaterThan(SEEDS * 0.8);
    // The planner's first choice stands by itself but for a handful (3 of 890 when this was written).
    expect(otherWay).toBeLessThanOrEqual(5);
  });

  test("a quarter turn turns the plan exactly", () => {
    const wrong: string[] = [];
    for (let seed = 1; seed <= 120; seed++) {
      const far = turnedBy(seed, 90);
      if (far !== null && far > 0.0011) wrong.push(`seed ${seed}: ${far}`);
    }
    expect(wrong).toEqual([]);
  });

  /**
   * Turned corners are no whole micrometres, so every figure of the turned job lies up to 0.001 mm beside the first's, and a
   * choice between answers equally good within that (a tie) may fall otherwise. Ties are told by the distance alone: more
   * than 0.01 mm. Of 192 jobs 191 were within 0.0084 mm when this was written; the one left (seed 106) had the same
   * pieces, phase and rows and lay 0.06 mm beside; why was not found.
   */
  test("turning by an odd angle turns the plan within 0.01 mm, but for ties", () => {
    let jobs = 0;
    let exact = 0;
    const ties: string[] = [];
    let worst = 0;
    for (let seed = 1; seed <= 240; seed++) {
      const far = turnedBy(seed, 27.3);
      if (far === null) continue;
      jobs++;
      worst = Math.max(worst, far);
      if (far <= 0.01) exact++;
      else ties.push(`${seed}: ${far}`);
    }
    expect(jobs).toBeGreaterThan(150);
    expect(exact / jobs, ties.join("; ")).toBeGreaterThanOrEqual(0.97);
    expect(worst, ties.join("; ")).toBeLessThan(0.1);
  });

  test("mirroring keeps the area of the field within the rounding of arcs", () => {
    for (let seed = 1; seed <= 120; seed++) {
      const raw = randomJob(seed);
      const a = planned(raw, "as is");
      const b = planned(mirrorJob(raw), "mirrored");
      if (!a || !b) continue;
      const scale = Math.max(1, a.plan.figures.area);
      expect(Math.abs(a.plan.figures.area - b.plan.figures.area) / scale, `seed ${seed}`).toBeLessThan(1e-6);
    }
  });

  test("where every rule can be met, none is excused: whole and half boards between walls, a rip a screw can hold", () => {
    const excused: string[] = [];
    for (let seed = 1; seed <= 100; seed++) {
      const made = planned(easyJob(seed), `easy ${seed}`)!;
      const { breaches, excused: places } = made.check();
      for (const { code, at } of [...breaches, ...places.map(({ breach }) => breach)])
        excused.push(`easy ${seed}: ${code} at ${at}`);
    }
    expect(excused).toEqual([]);
  });
});

/** A rectangle of generous measures: three walls, open at the top, nothing in it; the rip is 110 mm or more, or there is none. */
function easyJob(seed: number): unknown {
  const c = chance(seed);
  const width = c.pick([138, 145, 160]);
  const rip = c.pick([0, c.int(110, width - 10)]);
  const height = c.int(5, 25) * (width + 5) + (rip === 0 ? -5 : rip) + 12;
  const kind = c.pick(["half", "half", "third", "stack"]);
  // Ends of 300 mm at least on both sides forbid 600 mm of every shift's repeat: half of 1505 has room for that, a third of
  // it (502) has not, a third of 2005 (668) has.
  const length = kind === "third" ? c.pick([2000, 2400]) : c.pick([1500, 2000, 2400]);
  const long = c.int(1000, 4 * length);
  return {
    format: "rowline/job@1",
    title: "Easy",
    site: {
      outline: [
        [0, 0],
        [long, 0],
        [long, height],
        [0, height],
      ],
      sides: ["wall", "wall", "open", "wall"],
    },
    base: { membrane: false, heating: false, tendons: false },
    board: { lengths: [{ length, price: length }], width, rise: 25 },
    bond: { angle: 0, kind },
  };
}

/**
 * What of the field is left when the pieces drawn in the plan file, the gaps between rows, the end gaps and what findings
 * name with an area are taken off; and how much may be: edges whose gap is up to 2 mm wider, beside first and last row and
 * where a span's end is square, and 0.01 mm of rounding along every edge. Areas of gaps by a general polygon clipper.
 */
function areasOf({ record, plan }: Pick<Planned, "record" | "plan">): { missingMm2: number; slackMm2: number } {
  const { field, rows } = record.setout;
  const parts = field.flatMap((region) => [region.outer, ...region.holes]);
  const whole: Paths64 = parts.map(toPath);
  const us = field.flatMap((region) => region.outer.map(([u]) => u));
  const [u0, u1] = [Math.min(...us) - 1, Math.max(...us) + 1];
  const gaps: Paths64 = [];
  for (let i = 1; i < rows.length; i++) gaps.push(box(u0, rows[i - 1]!.v1Um, u1, rows[i]!.v0Um));
  const pieces = record.bond.pieces;
  for (const { left, right, row } of record.bond.joints)
    gaps.push(box(pieces[left]!.u1Um, rows[row]!.v0Um, pieces[right]!.u0Um, rows[row]!.v1Um));
  const gapMm2 = Clipper.areaPaths(Clipper.intersect(whole, gaps, FillRule.NonZero)) / 1e6;
  const laidMm2 = plan.pieces.reduce(
    (sum, piece) => sum + areaOf(piece.ring) - piece.holes.reduce((inner, hole) => inner + areaOf(hole), 0),
    0,
  );
  let namedMm2 = 0;
  for (const { rule, data } of allFindings(record))
    if (rule === "cover") namedMm2 += (data as { areaMm2?: number }).areaMm2 ?? 0;
  const missingMm2 = Clipper.areaPaths(whole) / 1e6 - laidMm2 - gapMm2 - namedMm2;
  const edgeMm = parts.reduce((sum, ring) => sum + lengthOf(ring), 0) / 1000;
  return { missingMm2, slackMm2: 2 * edgeMm + 1 };
}

function toPath(ring: Ring): Path64 {
  return ring.map(([u, v]) => ({ x: u, y: v }));
}

function box(u0: number, v0: number, u1: number, v1: number): Path64 {
  return toPath([
    [u0, v0],
    [u1, v0],
    [u1, v1],
    [u0, v1],
  ]);
}

function areaOf(ring: readonly (readonly [number, number])[]): number {
  const [ox, oy] = ring[0]!;
  const twice = ring.reduce((sum, [x, y], i) => {
    const [nx, ny] = ring[(i + 1) % ring.length]!;
    return sum + (x - ox) * (ny - oy) - (nx - ox) * (y - oy);
  }, 0);
  return Math.abs(twice) / 2;
}

function lengthOf(ring: Ring): number {
  return ring.reduce((sum, [u, v], i) => {
    const [nu, nv] = ring[(i + 1) % ring.length]!;
    return sum + Math.sqrt((nu - u) ** 2 + (nv - v) ** 2);
  }, 0);
}

/** How far the plan of the turned job lies from the turned plan, mm; null where the job names no angle or is refused. */
function turnedBy(seed: number, deg: number): number | null {
  const raw = randomJob(seed);
  if ((raw.bond as { angle: number | null }).angle === null) return null;
  const a = planned(raw, "as is");
  const b = planned(turnJob(raw, deg), "turned");
  if (!a || !b) return null;
  const [c, s] = directionOf(deg);
  return farthest(a.plan, b.plan, (x, y) => [x * c - y * s, x * s + y * c]);
}

/** The largest distance of a corner from where the move puts it, along x or y; infinite where pieces or corners differ in number. */
function farthest(a: PlanFile, b: PlanFile, move: (x: number, y: number) => [number, number]): number {
  if (a.pieces.length !== b.pieces.length) return Infinity;
  let far = 0;
  for (let i = 0; i < a.pieces.length; i++) {
    const [p, q] = [a.pieces[i]!.ring, b.pieces[i]!.ring];
    if (p.length !== q.length) return Infinity;
    for (let k = 0; k < p.length; k++) {
      const [x, y] = move(p[k]![0], p[k]![1]);
      far = Math.max(far, Math.abs(x - q[k]![0]), Math.abs(y - q[k]![1]));
    }
  }
  return far;
}
