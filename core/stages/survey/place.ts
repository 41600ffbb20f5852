import { toUm } from "../../base/units.ts";
import type { Job } from "../../job/job.ts";
import { liesOutside } from "./cover.ts";
import type { SurveyFinding } from "./findings.ts";
import { type FlatRing, type Origin, whereIs } from "./ring.ts";
import type { ReadOutline, ReadRings } from "./rings.ts";

/** What lies where it helps nobody: areas and straightedges beside the outline, an outline beyond its slab. */
export function placeFindings(job: Job, outline: ReadOutline, rings: ReadRings, origin: Origin): SurveyFinding[] {
  return [
    ...areasOutside(job, outline.flat, rings),
    ...slabShort(outline, rings.slab, origin),
    ...straightedges(job, outline, origin),
  ];
}

const NOTE = { rule: "survey", level: "note", found: null, limit: null, releasedBy: null } as const;

function areasOutside(job: Job, outline: FlatRing, rings: ReadRings): SurveyFinding[] {
  const found: SurveyFinding[] = [];
  for (const what of ["noDrill", "keepClear", "loose"] as const) {
    job.site[what].forEach(({ name, ring }, i) => {
      const flat = rings[what][i];
      if (!flat || !liesOutside(flat, outline)) return;
      found.push({ ...NOTE, code: "areaOutside", at: [ring[0]![0], ring[0]![1]], data: { what, name } });
    });
  }
  return found;
}

/** Corners of the outline that hang over the edge of the base as given. */
function slabShort(outline: ReadOutline, slab: FlatRing | null, origin: Origin): SurveyFinding[] {
  if (!slab) return [];
  const over = outline.ring.filter(([x, y]) => whereIs(slab, toUm(x - origin.xMm), toUm(y - origin.yMm)) === -1);
  const first = over[0];
  if (!first) return [];
  const data = { x: first[0], y: first[1], corners: over.length };
  return [
    {
      ...NOTE,
      level: "warn",
      code: "slabShort",
      at: [first[0], first[1]],
      found: over.length,
      limit: 0,
      releasedBy: "reading",
      data,
    },
  ];
}

function straightedges(job: Job, outline: ReadOutline, origin: Origin): SurveyFinding[] {
  const outside = job.survey.straightedges.filter(({ from, to }) =>
    [from, to].every(([x, y]) => whereIs(outline.flat, toUm(x - origin.xMm), toUm(y - origin.yMm)) === -1),
  );
  const first = outside[0];
  if (!first) return [];
  return [
    { ...NOTE, code: "straightedgeOutside", at: [first.from[0], first.from[1]], data: { count: outside.length } },
  ];
}
