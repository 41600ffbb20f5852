/**
 * A plan record made by hand, for drawings alone: rows by simple intervals, clips by a simple step. Its figures are
 * drawn, never judged. Not part of the program.
 */
import type { Finding } from "../../core/base/finding.ts";
import { flattenRing } from "../../core/geometry/arc.ts";
import { frameAt, type Ring, toFrame } from "../../core/geometry/frame.ts";
import type { Job, SideKind, Vertex } from "../../core/job/job.ts";
import type { PlanRecord } from "../../core/plan/record.ts";
import type { Joint, Piece } from "../../core/stages/bond/record.ts";
import type { Clip } from "../../core/stages/fixing/record.ts";
import type { SurfaceRecord, Xyz } from "../../core/stages/surface/record.ts";

export interface SampleWish {
  title: string;
  outline: Vertex[];
  kinds: SideKind[];
  angleDeg: number;
  released: boolean;
  levels: boolean;
  findings: Finding[];
  postName: string;
}

/** An L-shaped courtyard with a door, a round post, a gully and a base with a bump and a hollow. */
export function sampleRecord(wish: Partial<SampleWish> = {}): PlanRecord {
  const outline: Vertex[] = wish.outline ?? [
    [0, 0, 0],
    [6400, 0, 0],
    [6400, 4200, 0],
    [2400, 4200, 0],
    [2400, 2600, 0],
    [0, 2600, 0],
  ];
  const kinds: SideKind[] = wish.kinds ?? ["wall", "open", "wall", "door", "wall", "kerb"];
  const frame = frameAt(10, 10, wish.angleDeg ?? 0);
  const turned: Ring = flattenRing(outline).map(([x, y]) => toFrame(frame, x, y));
  const post: Vertex[] = [
    [4000, 1500, 1],
    [4200, 1500, 1],
  ];
  const gully: Vertex[] = [
    [5200, 3100, 0],
    [5400, 3100, 0],
    [5400, 3300, 0],
    [5200, 3300, 0],
  ];
  const { rows, pieces, joints } = rowsOf(turned);
  const clips = clipsOf(pieces);
  const surface = wish.levels === false ? null : surfaceOf(outline);
  const postName = wish.postName ?? "post";
  const within = (ring: readonly Vertex[]) => ring.every(([x, y]) => holds(flattenRing(outline), x, y));
  const cutouts = [
    { name: postName, ring: post, gapMm: 5, height: "tall" as const },
    { name: "gully", ring: gully, gapMm: 5, height: "flush" as const },
  ].filter((cutout) => within(cutout.ring));
  const noDrill = [
    {
      name: "heating loop",
      ring: [
        [500, 900, 0],
        [1900, 900, 0],
        [1900, 1900, 0],
        [500, 1900, 0],
      ] as Vertex[],
    },
  ].filter((area) => within(area.ring));
  return {
    job: jobOf(wish.title ?? "Courtyard, 7 Kiln Lane"),
    jobHash: "3f9ac2d17be0452266aa90c1d5e8f7700112233445566778899aabbccddeeff0",
    defaultsUsed: ["cut", "clips", "gaps", "bond.kind"],
    survey: {
      outline,
      sides: outline.map((_, i) => ({
        kind: kinds[i % kinds.length]!,
        gap: null,
        sill: kinds[i % kinds.length] === "door" ? 40 : null,
        opens: "out",
        leafClear: 15,
        gapMm: 10,
        source: i,
      })),
      cutouts,
      noDrill,
      keepClear: [],
      loose: [],
      baseJoints: wish.outline
        ? []
        : [
            [
              [0, 1300],
              [6400, 1300],
            ],
          ],
      slab: null,
      levels: surface ? surface.points.map(([xMm, yMm, zMm]) => ({ xMm, yMm, zMm })) : [],
      straightedges: surface ? [{ from: [800, 800], to: [2800, 800], gapMm: 5.8 }] : [],
      adjustment: null,
      areaMm2: 22_720_000,
      netAreaMm2: 22_650_000,
      findings: [],
    },
    surface: { surface, findings: [] },
    preparation: {
      options: surface
        ? [
            {
              option: "patch",
              grindMm3: 0,
              fillMm3: 0,
              massKg: 0,
              massPerM2Kg: 0,
              costMinor: 0,
              planes: [],
              why: "",
              feasible: true,
              materials: [],
              stakes: stakesOf(surface),
            },
          ]
        : [],
      chosen: surface ? 0 : null,
      findings: [],
    },
    setout: {
      frame,
      site: { outline: turned, edges: [], cutouts: [], noDrill: [], keepClear: [], baseJoints: [], slab: null },
      field: [{ outer: turned, holes: [] }],
      fieldAreaUm2: 22_300_000_000_000,
      boardWidthUm: 145_000,
      sideGapUm: 5_000,
      rows,
      spans: [],
      reasons: [],
      findings: [],
    },
    bond: { kind: "half", lengthUm: 1_500_000, phaseUm: 0, joints, pieces, reasons: [], findings: wish.findings ?? [] },
    fixing: {
      clips,
      heldBy: pieces.map(() => ["clips", "clips"]),
      screws: [{ piece: 0, edge: 0, uUm: 300_000, vUm: 60_000 }],
      counts: {
        start: clips.filter((c) => c.kind === "start").length,
        seam: clips.filter((c) => c.kind === "seam").length,
        last: clips.filter((c) => c.kind === "last").length,
        end: clips.filter((c) => c.kind === "end").length,
      },
      findings: [],
    },
    cutting: {
      boards: pieces.map((piece, i) => ({
        id: `b${i + 1}`,
        lengthUm: 1_500_000,
        parts: [{ piece: i, at: [0, 0], size: [piece.lengthUm, piece.widthUm], turned: false, ring: null }],
        offcuts: [],
      })),
      boardOf: pieces.map((_, i) => i),
      ends: pieces.map((piece) => piece.ends),
      boardsAtLeast: pieces.length,
      bound: { scope: "pieces", by: "edges", scale: 1, duals: [] },
      cuts: 0,
      rips: 0,
      wasteUm2: 0,
      massKg: 0,
      findings: [],
    },
    laying: { steps: [], checkLines: [], findings: [] },
    takeoff: { items: [], trims: [], depthsMm: [35], totalMinor: 0, unpriced: [], findings: [] },
    site: { doors: [], riseMm: 25, drillingReleased: wish.released ?? true, cautions: [], findings: [] },
  };
}

/** Rows one board and a gap apart over the turned outline; each cut at its crossings at mid height, joints in half bond. */
function rowsOf(ring: Ring): { rows: PlanRecord["setout"]["rows"]; pieces: Piece[]; joints: Joint[] } {
  const rows: PlanRecord["setout"]["rows"] = [];
  const pieces: Piece[] = [];
  const joints: Joint[] = [];
  const low = ring.reduce((least, p) => Math.min(least, p[1]), Infinity);
  const high = ring.reduce((most, p) => Math.max(most, p[1]), -Infinity);
  for (let row = 0; low + row * 150_000 + 60_000 < high; row++) {
    const v0Um = low + row * 150_000;
    const v1Um = Math.min(v0Um + 145_000, high);
    rows.push({ row, v0Um, v1Um: v0Um + 145_000, spans: [] });
    const cuts: number[] = [];
    const v = v0Um + 70_000;
    for (let i = 0; i < ring.length; i++) {
      const a = ring[i]!;
      const b = ring[(i + 1) % ring.length]!;
      if (a[1] <= v !== b[1] <= v) cuts.push(Math.round(a[0] + ((v - a[1]) * (b[0] - a[0])) / (b[1] - a[1])));
    }
    cuts.sort((a, b) => a - b);
    for (let k = 0; k + 1 < cuts.length; k += 2) {
      const phase = row % 2 === 0 ? 0 : 752_500;
      let u = cuts[k]!;
      while (u < cuts[k + 1]! - 100_000) {
        const lattice = Math.ceil((u + 300_000 - phase) / 1_505_000) * 1_505_000 + phase;
        const end = Math.min(lattice - 2_500, cuts[k + 1]!);
        const ripped = v1Um - v0Um < 145_000;
        pieces.push({
          id: `p${pieces.length + 1}`,
          row,
          span: 0,
          region: {
            outer: [
              [u, v0Um],
              [end, v0Um],
              [end, v1Um],
              [u, v1Um],
            ],
            holes: [],
          },
          u0Um: u,
          u1Um: end,
          v0Um,
          v1Um,
          lengthUm: end - u,
          widthUm: v1Um - v0Um,
          ends: [u === cuts[k] && u % 1000 !== 0 ? "cut" : "factory", end === cuts[k + 1] ? "cut" : "factory"],
          edges: ["groove", ripped ? "ripped" : "groove"],
          stripV0Um: v0Um,
          stripV1Um: v0Um + 145_000,
          plain: true,
          cutWhen: "ahead",
        });
        if (end < cuts[k + 1]!) joints.push({ row, uUm: lattice, left: pieces.length - 1, right: pieces.length });
        u = end + 5_000;
      }
    }
  }
  return { rows, pieces, joints };
}

function clipsOf(pieces: readonly Piece[]): Clip[] {
  const clips: Clip[] = [];
  const put = (kind: Clip["kind"], seam: number, uUm: number, vUm: number, holds: number[]) =>
    void clips.push({ id: `c${clips.length + 1}`, kind, seam, uUm, vUm, playUm: [-40_000, 40_000], holds });
  const last = pieces.reduce((most, piece) => Math.max(most, piece.row), 0);
  pieces.forEach((piece, i) => {
    for (const share of [0.12, 0.5, 0.88])
      put(
        piece.row === 0 ? "start" : "seam",
        piece.row,
        Math.round(piece.u0Um + piece.lengthUm * share),
        piece.v0Um - 2_500,
        [i],
      );
    if (piece.row === last)
      for (const share of [0.2, 0.8])
        put("last", piece.row + 1, Math.round(piece.u0Um + piece.lengthUm * share), piece.v1Um + 2_500, [i]);
    const before = pieces[i - 1];
    if (before?.row !== piece.row) put("end", piece.row, piece.u0Um + 50_000, piece.v0Um + 70_000, [i]);
    const after = pieces[i + 1];
    if (after?.row !== piece.row) put("end", piece.row, piece.u1Um - 50_000, piece.v0Um + 70_000, [i]);
  });
  return clips;
}

/** A grid of readings inside the outline, 2 % down +x, a bump and a hollow; each cell two triangles. */
function surfaceOf(outline: readonly Vertex[]): SurfaceRecord {
  const flat = flattenRing(outline);
  const xs = flat.map((p) => p[0]);
  const ys = flat.map((p) => p[1]);
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const nx = Math.max(2, Math.round((x1 - x0) / 800));
  const ny = Math.max(2, Math.round((y1 - y0) / 700));
  const points: Xyz[] = [];
  const index = new Map<string, number>();
  const height = (x: number, y: number) => {
    const bump = (cx: number, cy: number, r: number) =>
      Math.max(0, 1 - ((x - cx) * (x - cx) + (y - cy) * (y - cy)) / (r * r));
    return (
      Math.round(
        (120 - 0.018 * x - 0.004 * y + 14 * bump(x0 + 1600, y0 + 1400, 1100) - 13 * bump(x1 - 1200, y0 + 1400, 1200)) *
          10,
      ) / 10
    );
  };
  for (let j = 0; j <= ny; j++) {
    for (let i = 0; i <= nx; i++) {
      const x = x0 + ((x1 - x0) * i) / nx;
      const y = y0 + ((y1 - y0) * j) / ny;
      if (!holds(flat, x, y)) continue;
      index.set(`${i},${j}`, points.length);
      points.push([x, y, height(x, y)]);
    }
  }
  const triangles: number[] = [];
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) {
      const [a, b, c, d] = [`${i},${j}`, `${i + 1},${j}`, `${i + 1},${j + 1}`, `${i},${j + 1}`].map((key) =>
        index.get(key),
      );
      if (a !== undefined && b !== undefined && c !== undefined) triangles.push(a, b, c);
      if (a !== undefined && c !== undefined && d !== undefined) triangles.push(a, c, d);
    }
  }
  const plane = { a: -0.018, b: -0.004, c: 120, fall: 1.84, towards: 12.5 };
  const falls = points
    .filter((_, i) => i % 4 === 1)
    .map(([x, y]) => ({
      at: [x + 300, y + 300] as const,
      fall: 1.2 + ((x + y) % 1300) / 1000,
      towards: 12.5 + ((x * 3 + y) % 60) - 30,
    }));
  return {
    points,
    triangles,
    edgeTriangles: [],
    plane,
    zone: { ...plane, halfWidthMm: 13.4, points: [], weights: [] },
    straightedge: {
      lengthMm: 2000,
      gapMm: 5.8,
      from: [x0 + 600, y0 + 1400],
      to: [x0 + 2600, y0 + 1400],
      at: [x0 + 1900, y0 + 1400],
    },
    facets: [],
    puddles: [
      {
        at: [x1 - 1200, y0 + 1400],
        depthMm: 3.2,
        areaMm2: 410_000,
        volumeMm3: 650_000,
        ring: flattenRing(
          [
            [x1 - 1600, y0 + 1400, 1],
            [x1 - 800, y0 + 1400, 1],
          ],
          5,
        ),
      },
    ],
    falls: falls.filter((fall) => holds(flat, fall.at[0], fall.at[1])),
    spacingMm: 640,
    verdict: "prepare",
    shapeVerdict: "prepare",
  };
}

function stakesOf(surface: SurfaceRecord) {
  return surface.points.map(([x, y, z]) => {
    const d = z - (surface.zone.a * x + surface.zone.b * y + surface.zone.c);
    return {
      at: [x, y] as const,
      nowMm: z,
      thenMm: z - (d > 5 ? d - 5 : d < -5 ? d + 5 : 0),
      changeMm: d > 5 ? 5 - d : d < -5 ? -5 - d : 0,
    };
  });
}

function holds(ring: readonly (readonly [number, number])[], x: number, y: number): boolean {
  let within = false;
  for (let i = 0; i < ring.length; i++) {
    const [ax, ay] = ring[i]!;
    const [bx, by] = ring[(i + 1) % ring.length]!;
    const cross = (bx - ax) * (y - ay) - (by - ay) * (x - ax);
    if (
      Math.abs(cross) < 1 &&
      x >= Math.min(ax, bx) &&
      x <= Math.max(ax, bx) &&
      y >= Math.min(ay, by) &&
      y <= Math.max(ay, by)
    )
      return true;
    if (ay <= y !== by <= y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) within = !within;
  }
  return within;
}

function jobOf(title: string): Job {
  return {
    title,
    currency: "EUR",
    site: {
      outline: null,
      marks: null,
      offsets: [],
      sides: [],
      cutouts: [],
      noDrill: [],
      keepClear: [],
      loose: [],
      baseJoints: [],
      slab: null,
    },
    survey: { levels: [], straightedges: [], ties: [], sigma: { level: 1, levelPer10m: 0.5, tape: 2 } },
    base: {
      kind: "concrete",
      firm: true,
      membrane: false,
      heating: "unknown",
      tendons: false,
      suspended: false,
      loadMax: null,
      confirmed: [],
      limits: { unevenness: 5, straightedge: 2000, deviation: 10, fallMin: 2, fallMax: 4, fallLocalMin: 1 },
      preparation: { grindMax: 3, grindCost: 9000, materials: [] },
    },
    board: {
      name: "sample board",
      lengths: [{ length: 1500, price: 2140, pack: 1, stock: null }],
      width: 145,
      rise: 25,
      grooves: "both",
      channels: "along",
      expansion: 4e-5,
      mass: 4.6,
      reversible: true,
      tolerance: 0.5,
    },
    gaps: { side: 5, sideRange: [5, 5], end: 5, edge: 10 },
    clips: {
      length: 120,
      clearMax: 500,
      measure: "clear",
      endMax: 320,
      startEndMax: 100,
      perPiece: 2,
      tolerance: 15,
      slabEdge: 60,
      jointEdge: 60,
      wallReach: 45,
      engage: 8,
      fixing: { diameter: 6, embed: 35, holes: [[0, 0]] },
    },
    bond: { angle: 0, kind: "half", shift: null, firstRow: null, stagger: 300, minPiece: 300, minRip: 50 },
    cut: { kerf: 3, minOffcut: 300, cutTo: 1, holeEdge: 50 },
    trim: { length: 2400, price: 1450, leg: 40, thickness: 2, vent: true, screwSpacing: 300 },
    spares: { boards: 0.03, boardsAtLeast: 2, boardsSlanting: 0.06, clips: 0.05, fixings: 0.1 },
    prices: {},
    work: {},
    client: {},
  };
}
