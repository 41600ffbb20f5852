import type { FindingsOf } from "../../base/finding.ts";
import { ASIDE_PERCENT, PUDDLE_AREA_MM2, PUDDLE_DEPTH_MM } from "../../base/practice.ts";
import type { BaseMesh } from "../../geometry/base-mesh.ts";
import { drainsOver } from "../../geometry/outlets.ts";
import { findPuddles, type Puddle, type Water } from "../../geometry/puddles.ts";
import type { PlanePart } from "../../solve/facets.ts";
import { partAt } from "../../solve/facets.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { SurfaceFindings } from "./findings.ts";

type Found = FindingsOf<SurfaceFindings>;

/** Shallower than this a wet place at a door is within what levels can tell, mm. */
const DOOR_DEPTH_MM = 1;
/** Two neighbouring sides whose directions differ by less than about 30 degrees count as one. */
const SAME_SIDE_COSINE = 0.866;

/** Puddles on the base; a note says which cut-outs are taken for gullies. */
export function waterOn(mesh: BaseMesh, survey: SurveyRecord): Water {
  return findPuddles(mesh, (rim) => drainsOver(survey, rim));
}

export function judgeWater(water: Water, survey: SurveyRecord): Found[] {
  const found: Found[] = [];
  for (const c of survey.cutouts) {
    if (c.height !== "removable") continue;
    const at: [number, number] = [c.ring[0]![0], c.ring[0]![1]];
    const data = { name: c.name };
    found.push({
      code: "lidDrains",
      rule: "puddle",
      level: "note",
      at,
      found: null,
      limit: null,
      releasedBy: "person",
      data,
    });
  }
  for (const at of water.shut) {
    found.push({
      code: "noOutlet",
      rule: "noOutlet",
      level: "warn",
      at,
      found: null,
      limit: null,
      releasedBy: "person",
      data: {},
    });
  }
  for (const p of water.puddles) {
    const atDoor = p.depthMm > DOOR_DEPTH_MM && p.touches.some((s) => s >= 0 && survey.sides[s]?.kind === "door");
    const deep = p.depthMm > PUDDLE_DEPTH_MM + 1e-6;
    if (!deep && !(p.areaMm2 > PUDDLE_AREA_MM2) && !atDoor) continue;
    const data = {
      depthMm: p.depthMm,
      areaMm2: p.areaMm2,
      volumeMm3: p.volumeMm3,
      atDoor,
      cutout: besideLid(p, survey),
    };
    const [value, limit] = deep ? [p.depthMm, PUDDLE_DEPTH_MM] : atDoor ? [p.depthMm, 0] : [p.areaMm2, PUDDLE_AREA_MM2];
    found.push({
      code: "puddle",
      rule: "puddle",
      level: "warn",
      at: p.at,
      found: value,
      limit,
      releasedBy: null,
      data,
    });
  }
  return found;
}

/** A flush cut-out that the water reaches: it may be a gully nobody has named as one. */
function besideLid(p: Puddle, survey: SurveyRecord): string | null {
  const lid = p.touches.map((s) => (s <= -2 ? survey.cutouts[-2 - s] : undefined)).find((c) => c?.height === "flush");
  return lid ? lid.name : null;
}

/**
 * Walls and doors that the base falls towards, neighbouring sides merged; the plane is that of the part beside them.
 * On a base without any way out (`shut`) every direction ends at a wall: then only doors are named.
 */
export function fallsToHouse(survey: SurveyRecord, parts: readonly PlanePart[], shut: boolean): Found[] {
  const bad: { side: number; fall: number; at: [number, number]; length: number; nx: number; ny: number }[] = [];
  const n = survey.outline.length;
  for (let i = 0; i < n; i++) {
    const kind = survey.sides[i]?.kind;
    if (kind !== "door" && (kind !== "wall" || shut)) continue;
    const [x0, y0] = survey.outline[i]!;
    const [x1, y1] = survey.outline[(i + 1) % n]!;
    const length = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
    if (length === 0) continue;
    const nx = (y1 - y0) / length;
    const ny = (x0 - x1) / length;
    const at: [number, number] = [(x0 + x1) / 2, (y0 + y1) / 2];
    const { plane } = parts[partAt(parts, at[0] - nx, at[1] - ny)]!;
    const fall = -100 * (plane.a * nx + plane.b * ny);
    if (fall > ASIDE_PERCENT) bad.push({ side: i, fall, at, length, nx, ny });
  }
  const groups: (typeof bad)[] = [];
  for (const b of bad) {
    const group = groups.at(-1);
    const last = group?.at(-1);
    const joins = last && last.side + 1 === b.side && last.nx * b.nx + last.ny * b.ny > SAME_SIDE_COSINE;
    if (joins) group!.push(b);
    else groups.push([b]);
  }
  return groups.map((group) => {
    const door = group.find((b) => survey.sides[b.side]!.kind === "door");
    const worst = door ?? group.reduce((p, q) => (q.fall * q.length > p.fall * p.length ? q : p));
    const data = { fall: worst.fall, kind: door ? ("door" as const) : ("wall" as const), sides: group.length };
    return {
      ...({ code: "fallToHouse", rule: "fallToHouse", level: "warn", at: worst.at, found: worst.fall } as const),
      limit: ASIDE_PERCENT,
      releasedBy: null,
      data,
    };
  });
}
