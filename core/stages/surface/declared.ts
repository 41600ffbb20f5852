import type { Finding, FindingsOf } from "../../base/finding.ts";
import type { Confirmation, Job } from "../../job/job.ts";
import type { SurveyRecord } from "../survey/record.ts";
import type { SurfaceFindings } from "./findings.ts";

type Found = FindingsOf<SurfaceFindings>;
const NOTHING = {} as Record<string, never>;

/**
 * What is known of the base without a level: firmness, loose covering, kind, and what may lie hidden in it.
 * Hidden things that are there or not known stop all drilling until a named person has confirmed; then a note says who.
 */
export function judgeDeclared(job: Job, survey: SurveyRecord): Found[] {
  const { base } = job;
  const found: Found[] = [];
  const whole = { at: null, found: null, limit: null } as const;
  const by = (of: Confirmation["of"]) => base.confirmed.find((c) => c.of === of && c.by.trim() !== "");
  const note = (c: Confirmation, rule: string) => {
    const data = { of: c.of, by: c.by, on: c.on, says: c.says };
    found.push({ ...whole, code: "confirmed", rule, level: "note", releasedBy: null, data });
  };
  for (const hidden of ["membrane", "heating", "tendons"] as const) {
    const said = base[hidden];
    if (said === false) continue;
    const confirmation = by(hidden);
    if (confirmation) note(confirmation, hidden);
    else {
      const data = { known: said === true };
      found.push({
        ...whole,
        found: String(said),
        code: hidden,
        rule: hidden,
        level: "stop",
        releasedBy: "person",
        data,
      });
    }
  }
  if (base.firm !== true) {
    const confirmation = by("firmness");
    if (confirmation) note(confirmation, "firm");
    else if (base.firm === false) {
      found.push({ ...whole, code: "firmNot", rule: "firm", level: "stop", releasedBy: "person", data: NOTHING });
    } else
      found.push({ ...whole, code: "firmUnknown", rule: "firm", level: "warn", releasedBy: "reading", data: NOTHING });
  }
  if (base.kind === "asphalt" || base.kind === "paving") {
    const confirmation = by("fixing");
    if (confirmation) note(confirmation, "kind");
    else {
      const data = { kind: base.kind };
      found.push({
        ...whole,
        found: base.kind,
        code: "baseKind",
        rule: "kind",
        level: "stop",
        releasedBy: "document",
        data,
      });
    }
  }
  for (const area of survey.loose) {
    const data = { name: area.name, kind: area.kind };
    const at = middle(area.ring);
    found.push({ code: "loose", rule: "loose", level: "warn", at, found: null, limit: null, releasedBy: null, data });
  }
  return found;
}

/** True where a finding of this stage keeps the base from being accepted as it stands. */
export function isPreparation(f: Finding): boolean {
  return f.level === "warn" && PREPARED.has(f.rule);
}

const PREPARED = new Set(["unevenness", "deviation", "fall", "fallMax", "fallLocal", "fallToHouse", "puddle", "loose"]);

function middle(ring: readonly (readonly [number, number, number])[]): [number, number] {
  let x = 0;
  let y = 0;
  for (const p of ring) {
    x += p[0];
    y += p[1];
  }
  return [x / Math.max(1, ring.length), y / Math.max(1, ring.length)];
}
