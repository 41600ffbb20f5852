/** Where water goes under the boards: channels, fall, rows, trim and outlets belong together. */
import type { FindingsOf } from "../../base/finding.ts";
import { directionOf } from "../../geometry/direction.ts";
import type { Job, Xy } from "../../job/job.ts";
import type { SetoutRecord } from "../setout/record.ts";
import type { SurfaceStage } from "../surface/record.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { SiteFindings } from "./findings.ts";
import { middleOf, outwardOf } from "./sides.ts";

type Found = FindingsOf<SiteFindings>;

/** Below this a base has no direction of fall worth speaking of, %. Common practice, no source. */
const LEVEL_PERCENT = 0.5;
/** A side is downhill where the fall leaves through it within 60 degrees of square. */
const DOWNHILL_COSINE = 0.5;
/** Channels lie across the fall beyond 45 degrees; a little more, so that 45 is judged the same on every machine. */
const ACROSS_COSINE = 0.7;

interface Slope {
  fall: number;
  towards: number;
  at: Xy;
  /** Unit vector downhill. */
  down: [number, number];
}

export function judgeDrainage(job: Job, survey: SurveyRecord, surface: SurfaceStage, setout: SetoutRecord): Found[] {
  const found: Found[] = [];
  const { channels } = job.board;
  if (channels === "none") {
    const nothing = {} as Record<string, never>;
    found.push({ ...whole("channelsNone"), level: "warn", data: nothing });
  }
  const slopes = slopesOf(surface).filter((s) => s.fall >= LEVEL_PERCENT);
  if (slopes.length === 0) return found;
  const along: [number, number] = [setout.frame.cos, setout.frame.sin];
  const across: [number, number] = [-along[1] + 0, along[0]];
  if (channels === "along" || channels === "across") {
    const run = channels === "along" ? along : across;
    for (const slope of slopes) {
      const crossed = channelsAcross(job, run, slope);
      if (crossed) found.push(crossed);
    }
    found.push(...channelsBlind(survey, run, slopes));
  }
  if (job.trim && !job.trim.vent) found.push(...trimDams(survey, slopes));
  if (!surface.findings.some((f) => f.rule === "noOutlet")) found.push(...outletMissing(survey, slopes));
  return found;
}

function whole<C extends string>(code: C) {
  return { code, rule: code, at: null, found: null, limit: null, releasedBy: null } as const;
}

/** The facets where the base has several, else the one plane. */
function slopesOf(surface: SurfaceStage): Slope[] {
  const record = surface.surface;
  if (!record) return [];
  if (record.facets.length > 1) {
    return record.facets.map(({ plane, ring }) => ({ ...slope(plane.fall, plane.towards), at: middle(ring) }));
  }
  return [{ ...slope(record.plane.fall, record.plane.towards), at: middle(record.points) }];
}

function slope(fall: number, towards: number): { fall: number; towards: number; down: [number, number] } {
  return { fall, towards, down: directionOf(towards) };
}

/** The fall that is left along the channels is too little to empty them. */
function channelsAcross(job: Job, run: [number, number], s: Slope): Found | null {
  const cosine = Math.abs(run[0] * s.down[0] + run[1] * s.down[1]);
  const alongFall = round2(s.fall * cosine);
  const limit = job.base.limits.fallLocalMin;
  if (cosine > ACROSS_COSINE || alongFall >= limit) return null;
  const data = { alongFall, fall: round2(s.fall), limit, offDeg: offDegrees(cosine) };
  const place = { at: s.at, found: alongFall, limit, releasedBy: null };
  return { code: "channelsAcross", rule: "channelsAcross", level: "warn", ...place, data };
}

/** Sides the channels run down to that let no water through. */
function channelsBlind(survey: SurveyRecord, run: [number, number], slopes: readonly Slope[]): Found[] {
  const found: Found[] = [];
  survey.sides.forEach((side, i) => {
    if (side.kind !== "wall" && side.kind !== "door" && side.kind !== "kerb") return;
    const out = outwardOf(survey, i);
    const at = middleOf(survey, i);
    const s = nearest(slopes, at);
    const leaves = s.down[0] * out[0] + s.down[1] * out[1] > DOWNHILL_COSINE;
    if (!leaves || Math.abs(run[0] * out[0] + run[1] * out[1]) <= DOWNHILL_COSINE) return;
    const data = { side: side.source, kind: side.kind };
    found.push({ ...whole("channelsBlind"), level: "warn", at, data });
  });
  return found;
}

function trimDams(survey: SurveyRecord, slopes: readonly Slope[]): Found[] {
  const found: Found[] = [];
  survey.sides.forEach((side, i) => {
    if (side.kind !== "open") return;
    const out = outwardOf(survey, i);
    const at = middleOf(survey, i);
    const s = nearest(slopes, at);
    if (s.down[0] * out[0] + s.down[1] * out[1] <= DOWNHILL_COSINE) return;
    found.push({ ...whole("trimDams"), level: "warn", at, data: { side: side.source } });
  });
  return found;
}

/** A slope none of whose downhill sides lets water out, with no gully in the field to take it. */
function outletMissing(survey: SurveyRecord, slopes: readonly Slope[]): Found[] {
  if (survey.cutouts.some((c) => c.height === "removable")) return [];
  const found: Found[] = [];
  for (const s of slopes) {
    const downhill = survey.sides.filter((_, i) => {
      const out = outwardOf(survey, i);
      return s.down[0] * out[0] + s.down[1] * out[1] > DOWNHILL_COSINE && nearest(slopes, middleOf(survey, i)) === s;
    });
    const leads =
      downhill.length === 0 || downhill.some((d) => d.kind === "outlet" || d.kind === "open" || d.kind === "pool");
    if (leads) continue;
    const data = { towardsDeg: s.towards, fall: round2(s.fall) };
    const place = { at: s.at, found: round2(s.fall), releasedBy: "person" as const };
    found.push({ ...whole("outletMissing"), level: "warn", ...place, data });
  }
  return found;
}

function nearest(slopes: readonly Slope[], at: Xy): Slope {
  let best = slopes[0]!;
  let far = Number.POSITIVE_INFINITY;
  for (const s of slopes) {
    const d = (s.at[0] - at[0]) * (s.at[0] - at[0]) + (s.at[1] - at[1]) * (s.at[1] - at[1]);
    if (d < far) {
      best = s;
      far = d;
    }
  }
  return best;
}

/** Whole degrees between a channel and the fall, from the cosine, by trying: the core has no arc cosine. */
function offDegrees(cosine: number): number {
  let deg = 0;
  while (deg < 90 && directionOf(deg + 0.5)[0] > cosine) deg++;
  return deg;
}

function middle(points: readonly (readonly number[])[]): Xy {
  let x = 0;
  let y = 0;
  for (const p of points) {
    x += p[0]!;
    y += p[1]!;
  }
  const n = Math.max(1, points.length);
  return [Math.round((x / n) * 1000) / 1000, Math.round((y / n) * 1000) / 1000];
}

function round2(value: number): number {
  return Math.round(value * 100) / 100 + 0;
}
