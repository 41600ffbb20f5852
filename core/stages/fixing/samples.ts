/** Hand-made terraces for tests: rows of plain boards on one grid, without any other stage. */
import { toUm } from "../../base/units.ts";
import { frameAt, type Ring } from "../../geometry/frame.ts";
import type { Job } from "../../job/job.ts";
import { normaliseJob } from "../../job/normalise.ts";
import type { BondRecord, Joint, Piece } from "../bond/record.ts";
import type { SetoutRecord, SiteUv, Span } from "../setout/record.ts";

export interface Sample {
  job: Job;
  setout: SetoutRecord;
  bond: BondRecord;
}
export interface SampleRow {
  /** u at which the row begins, and the lengths of its boards, mm. */
  from?: number;
  boards: number[];
}

/** A job with defaults; the groups of `more` are merged one level deep. */
export function sampleJob(more: Record<string, Record<string, unknown>> = {}): Job {
  const raw: Record<string, unknown> = {
    format: "rowline/job@1",
    title: "Sample",
    site: {
      outline: [
        [0, 0],
        [1000, 0],
        [1000, 1000],
        [0, 1000],
      ],
    },
    board: { name: "sample", lengths: [{ length: 1200, price: 1000, pack: 1, stock: null }], width: 160, rise: 22 },
  };
  for (const [key, value] of Object.entries(more)) raw[key] = { ...(raw[key] as object | undefined), ...value };
  return normaliseJob(raw).job;
}

/** Rows of plain boards from v = 0 upward, an end gap between boards; walls stand `gaps.edge` outside the whole. */
export function sampleTerrace(
  rows: readonly SampleRow[],
  job: Job = sampleJob(),
  site: Partial<SiteUv> = {},
  kinds: readonly SiteUv["edges"][number]["kind"][] = ["wall", "wall", "wall", "wall"],
): Sample {
  const width = toUm(job.board.width);
  const sideGap = toUm(job.gaps.side);
  const endGap = toUm(job.gaps.end);
  const edge = toUm(job.gaps.edge);
  const pieces: Piece[] = [];
  const joints: Joint[] = [];
  const spans: Span[] = [];
  let u0All = Number.POSITIVE_INFINITY;
  let u1All = Number.NEGATIVE_INFINITY;
  rows.forEach(({ from = 0, boards }, row) => {
    const v0 = row * (width + sideGap);
    const v1 = v0 + width;
    let u = toUm(from);
    const start = u;
    boards.forEach((board, i) => {
      const u1 = u + toUm(board);
      pieces.push(plainPiece(pieces.length, row, u, u1, v0, v1));
      if (i > 0) {
        const uUm = Math.round(u - endGap / 2);
        joints.push({ row, uUm, left: pieces.length - 2, right: pieces.length - 1 });
      }
      u = u1 + endGap;
    });
    const u1 = u - endGap;
    spans.push({
      row,
      region: { outer: box(start, v0, u1, v1), holes: [] },
      u0Um: start,
      u1Um: u1,
      v0Um: v0,
      v1Um: v1,
      plain: true,
      mustJoint: [],
      noJoint: [],
    });
    u0All = Math.min(u0All, start);
    u1All = Math.max(u1All, u1);
  });
  const top = rows.length * (width + sideGap) - sideGap;
  const setout: SetoutRecord = {
    frame: frameAt(0, 0, 0),
    site: {
      outline: box(u0All - edge, -edge, u1All + edge, top + edge),
      edges: kinds.map((kind, source) => ({ kind, source, gapUm: edge })),
      cutouts: [],
      noDrill: [],
      keepClear: [],
      baseJoints: [],
      slab: null,
      ...site,
    },
    field: [{ outer: box(u0All, 0, u1All, top), holes: [] }],
    fieldAreaUm2: (u1All - u0All) * top,
    boardWidthUm: width,
    sideGapUm: sideGap,
    rows: rows.map((_, row) => ({
      row,
      v0Um: row * (width + sideGap),
      v1Um: row * (width + sideGap) + width,
      spans: [row],
    })),
    spans,
    reasons: [],
    findings: [],
  };
  const bond: BondRecord = {
    kind: "free",
    lengthUm: toUm(job.board.lengths[0]!.length),
    phaseUm: 0,
    joints,
    pieces,
    reasons: [],
    findings: [],
  };
  return { job, setout, bond };
}

/** A rectangle, counter-clockwise. */
export function box(u0: number, v0: number, u1: number, v1: number): Ring {
  return [
    [u0, v0],
    [u1, v0],
    [u1, v1],
    [u0, v1],
  ];
}

function plainPiece(index: number, row: number, u0: number, u1: number, v0: number, v1: number): Piece {
  return {
    id: `p${index + 1}`,
    row,
    span: row,
    region: { outer: box(u0, v0, u1, v1), holes: [] },
    u0Um: u0,
    u1Um: u1,
    v0Um: v0,
    v1Um: v1,
    lengthUm: u1 - u0,
    widthUm: v1 - v0,
    ends: ["factory", "factory"],
    edges: ["groove", "groove"],
    stripV0Um: v0,
    stripV1Um: v1,
    plain: true,
    cutWhen: "ahead",
  };
}
