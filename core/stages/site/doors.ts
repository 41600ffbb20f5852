import type { FindingsOf } from "../../base/finding.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { SiteFindings } from "./findings.ts";
import type { SiteRecord } from "./record.ts";
import { middleOf } from "./sides.ts";

type Found = FindingsOf<SiteFindings>;

/** An upstand at a level door is at most this: NHBC Standards 2020, 7.1.11. A reference; local code decides. */
export const LEVEL_UPSTAND_MM = 15;
/** Elsewhere the finished floor lies at least this far below the sill: NHBC Standards 2020, 7.1.11. Likewise. */
export const DRY_UPSTAND_MM = 75;

/** Every door with its step after laying, and what the rise does to sill and leaf. Figures in mm. */
export function judgeDoors(survey: SurveyRecord, riseMm: number): { doors: SiteRecord["doors"]; found: Found[] } {
  const doors: SiteRecord["doors"] = [];
  const found: Found[] = [];
  survey.sides.forEach((side, i) => {
    if (side.kind !== "door") return;
    const at = middleOf(survey, i);
    const stepAfterMm = side.sill === null ? null : round1(side.sill - riseMm);
    doors.push({ side: side.source, at, sillMm: side.sill, stepAfterMm, leafClearMm: side.leafClear });
    found.push(sillOf(side.source, at, side.sill, stepAfterMm, riseMm));
    const leaf = leafOf(side.source, at, side.opens, side.leafClear, riseMm);
    if (leaf) found.push(leaf);
  });
  return { doors, found };
}

function sillOf(side: number, at: [number, number], sill: number | null, after: number | null, riseMm: number): Found {
  if (sill === null || after === null) {
    const data = { side, riseMm };
    return {
      code: "sillUnknown",
      rule: "doorSill",
      level: "warn",
      at,
      found: null,
      limit: riseMm,
      releasedBy: "reading",
      data,
    };
  }
  const data = { side, sillMm: sill, riseMm, stepAfterMm: after };
  if (after <= 0)
    return {
      code: "doorSill",
      rule: "doorSill",
      level: "warn",
      at,
      found: after,
      limit: 0,
      releasedBy: "person",
      data,
    };
  return {
    code: "doorStep",
    rule: "doorStep",
    level: "note",
    at,
    found: after,
    limit: null,
    releasedBy: null,
    data: { ...data, lowMm: LEVEL_UPSTAND_MM, dryMm: DRY_UPSTAND_MM },
  };
}

/** A leaf that opens inward never meets the boards. */
function leafOf(
  side: number,
  at: [number, number],
  opens: "in" | "out" | null,
  leafClearMm: number | null,
  riseMm: number,
): Found | null {
  if (opens === "in") return null;
  if (leafClearMm === null) {
    if (opens === null) return null;
    const data = { side, riseMm };
    return {
      code: "leafUnknown",
      rule: "doorLeaf",
      level: "warn",
      at,
      found: null,
      limit: riseMm,
      releasedBy: "reading",
      data,
    };
  }
  if (leafClearMm > riseMm) return null;
  const opensKnown = opens === "out";
  const data = { side, leafClearMm, riseMm, opensKnown };
  const level = opensKnown ? "stop" : "warn";
  const releasedBy = opensKnown ? "person" : "reading";
  return { code: "doorLeaf", rule: "doorLeaf", level, at, found: leafClearMm, limit: riseMm, releasedBy, data };
}

function round1(mm: number): number {
  return Math.round(mm * 10) / 10 + 0;
}
