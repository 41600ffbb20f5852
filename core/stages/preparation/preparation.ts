import type { FindingsOf } from "../../base/finding.ts";
import { type BaseMesh, meshBase } from "../../geometry/base-mesh.ts";
import type { Job } from "../../job/job.ts";
import { findParts } from "../../solve/facets.ts";
import type { SurfaceStage, Xyz } from "../surface/record.ts";
import type { SurveyRecord } from "../survey/record.ts";
import { facetsOption } from "./facets-option.ts";
import type { PreparationFindings } from "./findings.ts";
import { patchOption } from "./patch-option.ts";
import { planeOption } from "./plane-option.ts";
import type { PreparationOption, PreparationRecord } from "./record.ts";
import { emptyOption, type Prepared } from "./target.ts";

type Found = FindingsOf<PreparationFindings>;
/** Findings of the surface that no patch mends: they ask for another slope. */
const FALL_RULES = new Set(["fall", "fallMax", "fallLocal", "fallToHouse"]);

/**
 * The ways to make the base right, each with volumes, mass, money and a stake at every reading: leave it, patch it, one
 * plane, or two planes where it has a ridge or valley. The cheapest that can be had is chosen; its weight is held against
 * the permitted load. Without levels there is nothing to prepare by, and the record is empty.
 */
export function prepareBase(job: Job, survey: SurveyRecord, surface: SurfaceStage): PreparationRecord {
  const mesh = surface.surface ? meshBase(survey, survey.levels) : null;
  if (!surface.surface || !mesh) return { options: [], chosen: null, findings: loadFindings(job, null) };
  const good = surface.surface.shapeVerdict !== "prepare";
  const prepared: Prepared[] = [emptyOption("none", good ? "asIs" : "breaches", good)];
  if (!good) {
    const parts = findParts(readingsOf(mesh), Math.max(1, 3 * job.survey.sigma.level)) ?? [];
    const fallsFail = surface.findings.some((f) => FALL_RULES.has(f.rule));
    prepared.push(patchOption(job, survey, mesh, parts, fallsFail), planeOption(job, survey, mesh));
    if (parts.length === 2) prepared.push(facetsOption(job, survey, mesh, parts));
  }
  let chosen: number | null = null;
  for (const [i, p] of prepared.entries()) {
    if (p.feasible && (chosen === null || p.costMinor < prepared[chosen]!.costMinor)) chosen = i;
  }
  const pick = chosen === null ? null : prepared[chosen]!;
  const findings: Found[] = [...loadFindings(job, pick)];
  if (!pick) {
    const data = { options: prepared.length };
    findings.push({
      code: "noPreparation",
      rule: "preparation",
      level: "stop",
      at: null,
      found: null,
      limit: null,
      releasedBy: "person",
      data,
    });
  } else if (pick.thin) {
    const { areaMm2, material, cutIn } = pick.thin;
    const data = { areaMm2, minMm: material.min, material: material.name, cutIn };
    findings.push({
      code: "thinEdges",
      rule: "preparation",
      level: "note",
      at: null,
      found: areaMm2,
      limit: null,
      releasedBy: null,
      data,
    });
  }
  const options = prepared.map(({ thin: _thin, ...option }): PreparationOption => option);
  return { options, chosen, findings };
}

function readingsOf(mesh: BaseMesh): Xyz[] {
  const out: Xyz[] = [];
  for (let i = 0; i < mesh.x.length; i++) if (mesh.reading[i]! >= 0) out.push([mesh.x[i]!, mesh.y[i]!, mesh.z[i]!]);
  return out;
}

/**
 * Weight added by filling and boards against the permitted load. On a suspended base without a permitted load any filling
 * stops the job, and boards alone are a warning; a named confirmation of the load releases both.
 */
function loadFindings(job: Job, pick: PreparationOption | null): Found[] {
  const fillKgPerM2 = pick?.massPerM2Kg ?? 0;
  const boardsKgPerM2 = (job.board.mass * 1000) / (job.board.width + job.gaps.side);
  const added = fillKgPerM2 + boardsKgPerM2;
  const { loadMax, suspended, confirmed } = job.base;
  const common = { rule: "loadMax", at: null, found: added } as const;
  if (loadMax !== null && added > loadMax + 1e-9) {
    const data = { fillKgPerM2, boardsKgPerM2, limitKgPerM2: loadMax };
    return [{ ...common, code: "loadOver", level: "stop", limit: loadMax, releasedBy: "document", data }];
  }
  if (loadMax !== null || !suspended) return [];
  const who = confirmed.find((c) => c.of === "load" && c.by.trim() !== "");
  if (who) {
    const data = { by: who.by, on: who.on, says: who.says, fillKgPerM2 };
    return [{ ...common, code: "loadConfirmed", level: "note", limit: null, releasedBy: null, data }];
  }
  const level = fillKgPerM2 > 0 ? "stop" : "warn";
  return [
    {
      ...common,
      code: "loadUnknown",
      level,
      limit: null,
      releasedBy: "document",
      data: { fillKgPerM2, boardsKgPerM2 },
    },
  ];
}
