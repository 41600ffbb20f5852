import type { Finding, FindingsOf } from "../../base/finding.ts";
import { toMm, toUm } from "../../base/units.ts";
import { toSite } from "../../geometry/frame.ts";
import type { Job } from "../../job/job.ts";
import type { BondRecord } from "../bond/record.ts";
import type { SetoutRecord } from "../setout/record.ts";
import { type Barriers, wallWithin } from "./barred.ts";
import type { Excuse } from "./demands.ts";
import type { EndBarred } from "./ends.ts";
import type { FixingFindings } from "./findings.ts";
import { boundaryAt } from "./held.ts";
import type { Clip } from "./record.ts";
import type { ClipRules } from "./rules.ts";
import type { Seam } from "./runs.ts";
import { stationsAlong } from "./stations.ts";

type Found = FindingsOf<FixingFindings>;
/** How far from its finding a breach may lie: on a seam, and on an edge, which may slant across the board's width. */
const ALONG_SEAM_UM = 380_000;
const ALONG_EDGE_UM = 300_000;

/** Turns what a seam could not keep into findings, several along a long stretch. */
export function reportExcuses(
  out: Finding[],
  excuses: readonly Excuse[],
  seam: Seam,
  setout: SetoutRecord,
  rules: ClipRules,
): void {
  for (const e of excuses) {
    const row = e.track === 0 ? seam.seam : seam.seam - 1;
    for (const u of stationsAlong(e.fromUm, e.toUm, ALONG_SEAM_UM)) {
      const at = toSite(setout.frame, u, seam.vUm);
      out.push(excused(e, row, at, rules));
    }
  }
}

function excused(e: Excuse, row: number, at: readonly [number, number], rules: ClipRules): Found {
  const { because, name } = e;
  const base = { level: "warn" as const, at, releasedBy: null };
  if (e.code === "clips") {
    const edge = e.track === 0 ? ("lower" as const) : ("upper" as const);
    const got = e.found ?? 0;
    const needed = e.limit ?? rules.perPiece;
    const data = { row, edge, got, needed, because, name };
    return { code: "clips", rule: "clips", ...base, found: got, limit: needed, data };
  }
  if (e.code === "jointClip") {
    return { code: "jointClip", rule: "jointClip", ...base, found: null, limit: null, data: { row, because, name } };
  }
  const foundMm = e.found === null ? null : tenthsMm(e.found);
  const limitMm = tenthsMm(e.limit ?? rules.most);
  const data = { row, foundMm, limitMm, because, name };
  return { code: e.code, rule: e.code, ...base, found: foundMm, limit: limitMm, data };
}

/** Row ends that cannot be screwed down, edges nothing holds, and the slab edge nobody has given. */
export function reportFixing(
  out: Finding[],
  job: Job,
  setout: SetoutRecord,
  bond: BondRecord,
  ends: readonly EndBarred[],
  loose: readonly { piece: number; edge: 0 | 1 }[],
  rules: ClipRules,
): void {
  const push = (finding: Found): void => {
    out.push(finding);
  };
  for (const e of ends) {
    const at = toSite(setout.frame, e.uUm, e.vUm);
    const data = { row: e.row, end: e.end, because: e.why, name: e.name };
    push({ code: "endClip", rule: "endClip", level: "warn", at, found: null, limit: null, releasedBy: null, data });
  }
  const needMm = tenthsMm(2 * rules.holeEdge + rules.diameter);
  for (const { piece: index, edge } of loose) {
    const piece = bond.pieces[index]!;
    const widthMm = tenthsMm(piece.widthUm);
    const data = {
      row: piece.row,
      edge: edge === 0 ? ("lower" as const) : ("upper" as const),
      widthMm,
      needMm,
      lengthMm: tenthsMm(piece.lengthUm),
      barred: piece.widthUm >= 2 * rules.holeEdge + rules.diameter,
    };
    for (const u of stationsAlong(piece.u0Um, piece.u1Um, ALONG_EDGE_UM)) {
      const at = toSite(setout.frame, u, boundaryAt(piece, edge, u));
      push({
        code: "oneEdge",
        rule: "oneEdge",
        level: "warn",
        at,
        found: widthMm,
        limit: needMm,
        releasedBy: null,
        data,
      });
    }
  }
  if (job.site.slab === null) reportSlab(push, setout, rules);
}

/** One finding for each open side of the job: the edge of the base there must be measured before anyone drills. */
function reportSlab(push: (finding: Found) => void, setout: SetoutRecord, rules: ClipRules): void {
  const { outline, edges } = setout.site;
  const asked = new Set<number>();
  edges.forEach((edge, i) => {
    if (edge.kind !== "open" || asked.has(edge.source)) return;
    asked.add(edge.source);
    const p = outline[i]!;
    const q = outline[(i + 1) % outline.length]!;
    const at = toSite(setout.frame, Math.round((p[0] + q[0]) / 2), Math.round((p[1] + q[1]) / 2));
    const limitMm = tenthsMm(rules.slabEdge);
    const data = { side: edge.source, limitMm };
    const known = { found: null, limit: limitMm, releasedBy: "reading" as const };
    push({ code: "slabUnknown", rule: "slabEdge", level: "note", at, ...known, data });
  });
}

/** One note for all clips so near to a wall that the drill may not fit; at the nearest of them. */
export function reportReach(
  out: Finding[],
  job: Job,
  setout: SetoutRecord,
  clips: readonly Clip[],
  barriers: Barriers,
): void {
  const reach = toUm(job.clips.wallReach);
  let count = 0;
  let nearest = Number.POSITIVE_INFINITY;
  let at: readonly [number, number] | null = null;
  for (const clip of clips) {
    const away = wallWithin(barriers, clip.uUm, clip.vUm, reach);
    if (away === null) continue;
    count++;
    if (away >= nearest) continue;
    nearest = away;
    at = toSite(setout.frame, clip.uUm, clip.vUm);
  }
  if (count === 0) return;
  const nearestMm = tenthsMm(nearest);
  const data = { count, nearestMm, reachMm: job.clips.wallReach };
  const found: Found = {
    ...({ code: "wallReach", rule: "wallReach", level: "note", at, found: nearestMm } as const),
    limit: job.clips.wallReach,
    releasedBy: null,
    data,
  };
  out.push(found);
}

/** Micrometres as whole tenths of a millimetre, for figures in sentences. */
function tenthsMm(um: number): number {
  return Math.round(toMm(um) * 10) / 10;
}
