import type { Finding } from "../base/finding.ts";
import { roundMm, toMm } from "../base/units.ts";
import type { Frame, Ring } from "../geometry/frame.ts";
import { toSite } from "../geometry/frame.ts";
import type { Part } from "../stages/cutting/record.ts";
import type { PreparationRecord } from "../stages/preparation/record.ts";
import type { SurfaceRecord } from "../stages/surface/record.ts";
import { ENGINE } from "./engine.ts";
import type { PlanFile, PlanFinding, XyMm } from "./plan.ts";
import type { PlanRecord } from "./record.ts";

/** A language as the plan file needs it. */
export interface Voice {
  finding(finding: Finding): { says: string; do: string };
  reason(reason: Reason): string;
}
/** Why the planner chose as it did: a code with its figures. */
export interface Reason {
  code: string;
  data: Record<string, number | string>;
}

/** All findings of a plan, stops first, then warnings, then notes; within a level in the job's order. */
export function allFindings(record: PlanRecord): Finding[] {
  const inOrder: Finding[] = [
    ...record.survey.findings,
    ...record.surface.findings,
    ...record.preparation.findings,
    ...record.site.findings,
    ...record.setout.findings,
    ...record.bond.findings,
    ...record.fixing.findings,
    ...record.cutting.findings,
    ...record.laying.findings,
    ...record.takeoff.findings,
  ];
  return (["stop", "warn", "note"] as const).flatMap((level) => inOrder.filter((f) => f.level === level));
}

/**
 * The plan file of a record. Site coordinates are written here and never read back; rings to 0.001 mm.
 * `summary` is the first line of every summary: what is excused, counted by the checker.
 */
export function toPlanFile(record: PlanRecord, voice: Voice, summary: string): PlanFile {
  const { setout, bond, fixing, cutting, laying, takeoff } = record;
  const { frame } = setout;
  const pieceId = (index: number): string => bond.pieces[index]!.id;
  const clipId = (index: number): string => fixing.clips[index]!.id;
  const piecesOfRow = new Map<number, string[]>();
  for (const piece of bond.pieces) {
    const list = piecesOfRow.get(piece.row);
    if (list) list.push(piece.id);
    else piecesOfRow.set(piece.row, [piece.id]);
  }
  return {
    format: "rowline/plan@1",
    summary,
    job: record.jobHash,
    engine: ENGINE,
    defaults: record.defaultsUsed,
    reasons: [...setout.reasons, ...bond.reasons].map((reason) => ({ code: reason.code, says: voice.reason(reason) })),
    base: record.surface.surface && baseOf(record.surface.surface, record.preparation),
    frame: { origin: [frame.originXMm, frame.originYMm], angle: frame.angleDeg },
    bond: {
      kind: bond.kind,
      length: toMm(bond.lengthUm),
      phase: toMm(bond.phaseUm),
      sideGap: toMm(setout.sideGapUm),
    },
    rows: setout.rows.map((r) => ({
      row: r.row,
      v: [toMm(r.v0Um), toMm(r.v1Um)],
      pieces: piecesOfRow.get(r.row) ?? [],
    })),
    pieces: bond.pieces.map((p, i) => ({
      id: p.id,
      row: p.row,
      ring: ringToSite(frame, p.region.outer),
      holes: p.region.holes.map((hole) => ringToSite(frame, hole)),
      length: toMm(p.lengthUm),
      width: toMm(p.widthUm),
      ends: cutting.ends[i]!,
      edges: p.edges,
      heldBy: fixing.heldBy[i]!,
      cutWhen: p.cutWhen,
      board: cutting.boards[cutting.boardOf[i]!]!.id,
    })),
    joints: bond.joints.map((j) => ({ row: j.row, u: toMm(j.uUm), pieces: [pieceId(j.left), pieceId(j.right)] })),
    clips: fixing.clips.map((c) => ({
      id: c.id,
      kind: c.kind,
      seam: c.seam,
      at: toSite(frame, c.uUm, c.vUm),
      play: [toMm(c.playUm[0]), toMm(c.playUm[1])],
      holds: c.holds.map(pieceId),
    })),
    screws: fixing.screws.map((s) => ({ piece: pieceId(s.piece), edge: s.edge, at: toSite(frame, s.uUm, s.vUm) })),
    boards: cutting.boards.map((b) => ({
      id: b.id,
      length: toMm(b.lengthUm),
      parts: b.parts.map((part) => partOf(part, pieceId(part.piece))),
      offcuts: b.offcuts.map((o) => ({ at: mmPair(o.at), size: mmPair(o.size) })),
    })),
    laying: laying.steps.map((s) => ({
      step: s.step,
      piece: pieceId(s.piece),
      clipsBefore: s.clipsBefore.map(clipId),
      clipsAfter: s.clipsAfter.map(clipId),
    })),
    trims: takeoff.trims.map((t) => ({
      side: t.side,
      parts: t.parts.map((part) => ({
        from: [part.from[0], part.from[1]],
        to: [part.to[0], part.to[1]],
        length: part.length,
      })),
    })),
    takeoff: takeoff.items,
    figures: {
      area: setout.fieldAreaUm2 / 1e6,
      boards: cutting.boards.length,
      boardsAtLeast: cutting.boardsAtLeast,
      bound: cutting.bound,
      cuts: cutting.cuts,
      rips: cutting.rips,
      waste: cutting.wasteUm2 / 1e6,
      mass: cutting.massKg,
      clips: fixing.counts,
      total: takeoff.totalMinor,
    },
    findings: allFindings(record).map((f) => findingOf(f, voice)),
  };
}

function ringToSite(frame: Frame, ring: Ring): XyMm[] {
  return ring.map(([u, v]) => toSite(frame, u, v));
}

function mmPair(pair: readonly [number, number]): XyMm {
  return [toMm(pair[0]), toMm(pair[1])];
}

function partOf(part: Part, piece: string): PlanFile["boards"][number]["parts"][number] {
  return {
    piece,
    at: mmPair(part.at),
    size: mmPair(part.size),
    turned: part.turned,
    ring: part.ring === null ? null : part.ring.map(mmPair),
  };
}

function findingOf(finding: Finding, voice: Voice): PlanFinding {
  const said = voice.finding(finding);
  return {
    rule: finding.rule,
    code: finding.code,
    level: finding.level,
    at: finding.at && [roundMm(finding.at[0]), roundMm(finding.at[1])],
    found: finding.found,
    limit: finding.limit,
    says: said.says,
    do: said.do,
    releasedBy: finding.releasedBy,
  };
}

function baseOf(surface: SurfaceRecord, preparation: PreparationRecord): PlanFile["base"] {
  const { plane, zone, straightedge } = surface;
  return {
    plane: { fall: plane.fall, towards: plane.towards },
    zone: {
      fall: zone.fall,
      towards: zone.towards,
      halfWidth: zone.halfWidthMm,
      points: zone.points.map(([x, y, z]) => [x, y, z]),
    },
    straightedge: straightedge && {
      length: straightedge.lengthMm,
      gap: straightedge.gapMm,
      from: pair(straightedge.from),
      to: pair(straightedge.to),
      at: pair(straightedge.at),
    },
    facets: surface.facets.map((f) => ({
      ring: f.ring.map(pair),
      fall: f.plane.fall,
      towards: f.plane.towards,
      halfWidth: f.halfWidthMm,
    })),
    puddles: surface.puddles.map((p) => ({
      at: pair(p.at),
      depth: p.depthMm,
      area: p.areaMm2,
      volume: p.volumeMm3,
    })),
    preparation: preparation.options.map((o) => ({
      option: o.option,
      grind: o.grindMm3,
      fill: o.fillMm3,
      mass: o.massKg,
      cost: o.costMinor,
      planes: o.planes.map(({ a, b, c }) => ({ a, b, c })),
      why: o.why,
    })),
    verdict: surface.verdict,
  };
}

function pair(xy: readonly [number, number]): XyMm {
  return [xy[0], xy[1]];
}
