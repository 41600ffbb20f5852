import { withDefaults } from "./defaults.ts";
import type { Job, Side, SideKind, Unknowable, Vertex } from "./job.ts";
import { jobRule } from "./schema.ts";

/** A job file with defaults filled in, before its short forms are written out. */
type FileVertex = readonly [number, number] | readonly [number, number, number];
type FileRing = FileVertex[];
type WithRing<T> = Omit<T, "ring"> & { ring: FileRing };
type Short<T> = Omit<T, "site" | "base" | "gaps">;
interface FilledJob extends Short<Job> {
  site: Omit<Job["site"], "outline" | "sides" | "cutouts" | "noDrill" | "keepClear" | "loose" | "slab"> & {
    outline: FileRing | null;
    sides: (SideKind | Side)[];
    cutouts: WithRing<Job["site"]["cutouts"][number]>[];
    noDrill: WithRing<Job["site"]["noDrill"][number]>[];
    keepClear: WithRing<Job["site"]["keepClear"][number]>[];
    loose: WithRing<Job["site"]["loose"][number]>[];
    slab: FileRing | null;
  };
  base: Omit<Job["base"], "firm" | "membrane" | "heating" | "tendons"> & Record<Doubt, Unknowable | "yes" | "no">;
  gaps: Omit<Job["gaps"], "sideRange"> & { sideRange: readonly [number, number] | undefined };
}
type Doubt = "firm" | "membrane" | "heating" | "tendons";

/**
 * A job file the schema accepts as the job every stage sees: defaults filled in, short forms written out
 * (sides, vertices, yes and no). `used` names the defaults.
 */
export function normaliseJob(raw: unknown): { job: Job; used: string[] } {
  const { value, used } = withDefaults(jobRule, raw);
  const file = value as FilledJob & { format?: string };
  const { format: _format, ...rest } = file;
  const site = file.site;
  const corners = site.outline?.length ?? site.marks?.length ?? 0;
  const sides = site.sides.length > 0 ? site.sides.map(sideOf) : Array.from({ length: corners }, () => sideOf("wall"));
  if (site.sides.length === 0) used.push("site.sides");
  const job: Job = {
    ...rest,
    site: {
      ...site,
      outline: site.outline && ringOf(site.outline),
      sides,
      cutouts: site.cutouts.map(withRing),
      noDrill: site.noDrill.map(withRing),
      keepClear: site.keepClear.map(withRing),
      loose: site.loose.map(withRing),
      slab: site.slab && ringOf(site.slab),
    },
    base: {
      ...file.base,
      firm: known(file.base.firm),
      membrane: known(file.base.membrane),
      heating: known(file.base.heating),
      tendons: known(file.base.tendons),
    },
    gaps: gapsOf(file.gaps, raw, used),
  };
  return { job, used };
}

function sideOf(side: SideKind | Side): Side {
  return typeof side === "string" ? { kind: side, gap: null, sill: null, opens: null, leafClear: null } : side;
}

function ringOf(ring: FileRing): Vertex[] {
  return ring.map((vertex) => [vertex[0], vertex[1], vertex[2] ?? 0]);
}

function withRing<T extends { ring: FileRing }>(area: T): Omit<T, "ring"> & { ring: Vertex[] } {
  return { ...area, ring: ringOf(area.ring) };
}

function known(answer: Unknowable | "yes" | "no"): Unknowable {
  return answer === "yes" ? true : answer === "no" ? false : answer;
}

/** One given side gap is its own range; a range given alone takes the default side gap, drawn into it. */
function gapsOf(gaps: FilledJob["gaps"], raw: unknown, used: string[]): Job["gaps"] {
  const { sideRange } = gaps;
  if (!sideRange) {
    used.push("gaps.sideRange");
    return { ...gaps, sideRange: [gaps.side, gaps.side] };
  }
  const given = (raw as { gaps?: { side?: number } }).gaps;
  const side = given?.side === undefined ? Math.min(Math.max(gaps.side, sideRange[0]), sideRange[1]) : gaps.side;
  return { ...gaps, side, sideRange };
}
