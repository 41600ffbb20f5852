/**
 * The judge: proves what must hold in every plan from job and plan alone.
 *
 * It shares with the planner the types, the table of tolerances, and the reading of the job: defaults filled in, tapes
 * adjusted to a survey. Everything it judges by is its own: turning, arcs, field, rows, what meets what, clips' places,
 * cutting, planes. It looks for breaches and says where; a finding of the same rule, at level warn or stop and within
 * 400 mm, excuses those that may be excused, and a clip rule only where there was no room.
 */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import canonicalize from "canonicalize";
import { TOLERANCE } from "../base/tolerances.ts";
import type { PlanFile } from "../plan/plan.ts";
import { type Breach, type CheckResult, EXCUSABLE, type Excuse, RULE_OF } from "./breach.ts";
import { judgeBoards } from "./rules/boards.ts";
import { judgeBond } from "./rules/bond.ts";
import { judgeBound } from "./rules/bound.ts";
import { judgeClips } from "./rules/clips.ts";
import { judgeCover } from "./rules/cover.ts";
import { judgeDemands } from "./rules/demands.ts";
import { judgeFigures } from "./rules/figures.ts";
import { judgeFormat, unsoundFigure } from "./rules/format.ts";
import { judgeHeld } from "./rules/held.ts";
import { judgeJoints } from "./rules/joints.ts";
import { judgeLaying } from "./rules/laying.ts";
import { judgeOverlaps, judgePieces, judgeRings } from "./rules/pieces.ts";
import { judgeRows, judgeStrips } from "./rules/rows.ts";
import { judgeSpans } from "./rules/spans.ts";
import { judgeTakeoff } from "./rules/takeoff.ts";
import { judgeVerdict } from "./rules/verdict.ts";
import { blame, type Scene, type SceneInput, sceneOf } from "./scene.ts";
import { seamsOf } from "./seams.ts";
import { zonesOf } from "./zones.ts";

export type { Breach, CheckResult } from "./breach.ts";

/** At most this many breaches of one code are listed; the rest is counted. */
const MOST_LISTED = 100;

/**
 * Proves a plan again. `job.raw` is the job as read, before defaults; `job.hash` its hash, which is worked out again.
 * `draft`: the plan's own first line is not written yet and not judged. O(n log n) in pieces and clips.
 */
export function checkPlan(job: SceneInput, plan: PlanFile, draft = false): CheckResult {
  const unsound = unsoundFigure(plan);
  if (unsound !== null) {
    const breach: Breach = {
      rule: RULE_OF.notFinite,
      code: "notFinite",
      at: null,
      found: unsound,
      limit: null,
      data: { place: unsound },
    };
    return resultOf(plan, [breach], []);
  }
  const scene = sceneOf(job, plan);
  const hash = bytesToHex(sha256(utf8ToBytes(canonicalize(job.raw) ?? "")));
  if (hash !== plan.job) blame(scene, "jobHash", null, plan.job, hash, {});
  judgeFormat(scene);
  // What lies on itself or in heaps is refused here: the rules below cut rings by rings and pair neighbours.
  if (!judgeRings(scene) || !judgeOverlaps(scene)) return resultOf(plan, ...excuse(scene));
  judgeRows(scene);
  judgeStrips(scene);
  const joints = judgeJoints(scene);
  judgePieces(scene, joints);
  judgeCover(scene, joints);
  judgeSpans(scene, joints);
  judgeBond(scene, joints);
  judgeBoards(scene);
  judgeBound(scene, joints);
  judgeFigures(scene);
  const seams = seamsOf(scene, joints);
  const zones = zonesOf(scene);
  judgeClips(scene, seams, zones);
  judgeDemands(scene, seams, zones, joints);
  judgeHeld(scene, seams, zones);
  judgeLaying(scene);
  judgeTakeoff(scene);
  judgeVerdict(scene);
  const [breaches, excused] = excuse(scene);
  if (!draft && excused.length > 0 && !numbersIn(plan.summary).includes(excused.length))
    breaches.push({
      rule: RULE_OF.summaryLine,
      code: "summaryLine",
      at: null,
      found: plan.summary,
      limit: excused.length,
      data: {},
    });
  return resultOf(plan, breaches, excused);
}

/** Whole numbers that stand in a line, however thousands are parted. */
function numbersIn(line: string): number[] {
  return (line.match(/\d[\d\u2009\u202f]*/g) ?? []).map((digits) => Number(digits.replace(/\D/g, "")));
}

/** Rule 10: which breaches a finding of the same rule nearby excuses. */
function excuse(scene: Scene): [Breach[], Excuse[]] {
  const breaches: Breach[] = [];
  const excused: Excuse[] = [];
  const reach = TOLERANCE.excuseMm + 0.002;
  const cells = new Map<string, { index: number; x: number; y: number }[]>();
  const key = (rule: string, i: number, j: number): string => `${rule} ${i} ${j}`;
  scene.plan.findings.forEach((finding, index) => {
    if (finding.level === "note" || !finding.at) return;
    const [x, y] = finding.at;
    const cell = key(finding.rule, Math.floor(x / reach), Math.floor(y / reach));
    const list = cells.get(cell);
    if (list) list.push({ index, x, y });
    else cells.set(cell, [{ index, x, y }]);
  });
  for (const breach of scene.breaches) {
    const finding =
      scene.locked.has(breach) || !EXCUSABLE.has(breach.rule) || !breach.at ? null : nearest(breach, breach.at);
    if (finding === null) breaches.push(breach);
    else excused.push({ breach, finding });
  }
  return [breaches, excused];

  function nearest(breach: Breach, [x, y]: readonly [number, number]): number | null {
    let best: number | null = null;
    let far = reach * reach;
    const [i, j] = [Math.floor(x / reach), Math.floor(y / reach)];
    for (let a = i - 1; a <= i + 1; a++)
      for (let b = j - 1; b <= j + 1; b++)
        for (const f of cells.get(key(breach.rule, a, b)) ?? []) {
          const d = (f.x - x) * (f.x - x) + (f.y - y) * (f.y - y);
          if (d > far) continue;
          far = d;
          best = f.index;
        }
    return best;
  }
}

function resultOf(plan: PlanFile, breaches: Breach[], excused: Excuse[]): CheckResult {
  const listed = new Map<string, number>();
  const kept = breaches.filter((breach) => {
    const n = (listed.get(breach.code) ?? 0) + 1;
    listed.set(breach.code, n);
    return n <= MOST_LISTED;
  });
  const ok = breaches.length === 0;
  return {
    ok,
    breaches: kept,
    excused,
    counts: {
      pieces: plan.pieces.length,
      joints: plan.joints.length,
      clips: plan.clips.length,
      boards: plan.boards.length,
      breaches: breaches.length,
      excused: excused.length,
      unlisted: breaches.length - kept.length,
    },
    summary: summaryOf(breaches.length, excused),
  };
}

/** The line a plan's summary begins with: what is excused, by rule, or that nothing is. Words stay out of core: figures only. */
function summaryOf(breaches: number, excused: Excuse[]): string {
  if (breaches > 0) return `breaches ${breaches}, excused ${excused.length}`;
  if (excused.length === 0) return "excused 0";
  const rules = new Map<string, number>();
  for (const { breach } of excused) rules.set(breach.rule, (rules.get(breach.rule) ?? 0) + 1);
  const parts = [...rules].sort((a, b) => (a[0] < b[0] ? -1 : 1)).map(([rule, n]) => `${rule} ${n}`);
  return `excused ${excused.length}: ${parts.join(", ")}`;
}
