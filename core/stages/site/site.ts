import { lengthChangeMm, SUN_KELVIN } from "../../base/expansion.ts";
import type { Finding, FindingsOf } from "../../base/finding.ts";
import type { Job } from "../../job/job.ts";
import type { SetoutRecord } from "../setout/record.ts";
import type { SurfaceStage } from "../surface/record.ts";
import type { SurveyRecord } from "../survey/record.ts";
import { cautionsFor } from "./cautions.ts";
import { judgeDoors } from "./doors.ts";
import { judgeDrainage } from "./drainage.ts";
import type { SiteFindings } from "./findings.ts";
import type { SiteRecord } from "./record.ts";
import { middleOf } from "./sides.ts";

type Found = FindingsOf<SiteFindings>;

/**
 * What the new floor does to the house: it comes up by `board.rise` (mm) at doors, guards, lids and slots; where its
 * water goes; whether drilling positions may be printed; which cautions apply. Limits given are references: local code
 * and licensed practice decide.
 */
export function judgeSite(job: Job, survey: SurveyRecord, surface: SurfaceStage, setout: SetoutRecord): SiteRecord {
  const riseMm = job.board.rise;
  const { doors, found } = judgeDoors(survey, riseMm);
  const findings: Finding[] = [
    ...found,
    ...judgeGuards(job, survey, riseMm),
    ...judgeThrough(survey, riseMm),
    ...judgeGrowth(job),
    ...judgeDrainage(job, survey, surface, setout),
  ];
  return {
    doors,
    riseMm,
    drillingReleased: mayDrill(job),
    cautions: cautionsFor(job, survey, surface, setout),
    findings,
  };
}

/** Membrane, heating and tendons each known to be absent, or answered for by a named person. */
function mayDrill(job: Job): boolean {
  const { base } = job;
  return (["membrane", "heating", "tendons"] as const).every(
    (hidden) => base[hidden] === false || base.confirmed.some((c) => c.of === hidden && c.by.trim() !== ""),
  );
}

/** Guards lose the rise; a pool's edge is walked on wet and barefoot. */
function judgeGuards(job: Job, survey: SurveyRecord, riseMm: number): Found[] {
  const found: Found[] = [];
  const sides = new Set<number>();
  survey.sides.forEach((side, i) => {
    if (sides.has(side.source)) return;
    const at = middleOf(survey, i);
    if (side.kind === "open" && job.base.suspended) {
      sides.add(side.source);
      found.push(guard(riseMm, side.source, at));
    }
    if (side.kind === "pool") {
      sides.add(side.source);
      const data = { side: side.source };
      found.push({
        code: "poolEdge",
        rule: "poolEdge",
        level: "note",
        at,
        found: null,
        limit: null,
        releasedBy: "document",
        data,
      });
    }
  });
  if (job.base.suspended && !found.some((f) => f.code === "guardRise")) found.push(guard(riseMm, null, null));
  return found;
}

function guard(riseMm: number, side: number | null, at: [number, number] | null): Found {
  const data = { riseMm, side };
  return {
    code: "guardRise",
    rule: "guardRise",
    level: "warn",
    at,
    found: riseMm,
    limit: null,
    releasedBy: "person",
    data,
  };
}

/** Between two boards that are held in their middles the gap closes by one board's growth. */
function judgeGrowth(job: Job): Found[] {
  const lengthMm = job.board.lengths.reduce((longest, { length }) => Math.max(longest, length), 0);
  const growthMm = Math.round(lengthChangeMm(job.board.expansion, lengthMm, SUN_KELVIN) * 10) / 10;
  const gapMm = job.gaps.end;
  if (growthMm <= gapMm) return [];
  const data = { lengthMm, growthMm, gapMm, kelvin: SUN_KELVIN };
  const place = { at: null, found: growthMm, limit: gapMm, releasedBy: "document" as const };
  return [{ code: "endGapCloses", rule: "endGapCloses", level: "warn", ...place, data }];
}

/** What keeps its level while the floor comes up: lids in the field, weep slots and overflows in the walls. */
function judgeThrough(survey: SurveyRecord, riseMm: number): Found[] {
  const found: Found[] = [];
  for (const cutout of survey.cutouts) {
    if (cutout.height === "tall") continue;
    const first = cutout.ring[0]!;
    const at: [number, number] = [first[0], first[1]];
    const data = { name: cutout.name, riseMm };
    found.push({
      code: "lidRise",
      rule: "lidRise",
      level: "note",
      at,
      found: riseMm,
      limit: null,
      releasedBy: null,
      data,
    });
  }
  if (survey.sides.some((side) => side.kind === "wall" || side.kind === "door")) {
    const data = { riseMm };
    found.push({
      code: "weepSlots",
      rule: "weepSlots",
      level: "note",
      at: null,
      found: riseMm,
      limit: null,
      releasedBy: null,
      data,
    });
  }
  return found;
}
