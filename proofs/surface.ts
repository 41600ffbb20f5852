import { readFileSync } from "node:fs";
import { flatnessLimitMm } from "../core/base/flatness.ts";
import { meshBase } from "../core/geometry/base-mesh.ts";
import { floodLevels, gridGraph } from "../core/geometry/flood.ts";
import { fitPlane } from "../core/geometry/plane.ts";
import { largestGap } from "../core/geometry/profile.ts";
import { findPuddles } from "../core/geometry/puddles.ts";
import { searchStraightedge } from "../core/geometry/straightedge.ts";
import { aboveLevel } from "../core/geometry/volume.ts";
import { cheapestFit, type Term } from "../core/solve/cheapest-fit.ts";
import { minimumZone } from "../core/solve/minimum-zone.ts";
import { judgeSurface } from "../core/stages/surface/surface.ts";
import { baseJob, baseSurvey, gridLevels, readPoints, rectangle, steadyNumbers } from "../fixtures/bases.ts";
import type { Proof } from "./proof.ts";
import { cheapestBySolver, halfWidthBySolver, planeByMatrix } from "./second-opinion.ts";

/** The base: published profiles, tables, grids and limits; closed forms; the same questions put to other libraries. */
interface Checks {
  slac_slab_E1155M: {
    dx_mm: number;
    elev_mm: Record<string, number[]>;
    published_q_mm: Record<string, number[]>;
    tol_q: number;
  };
  flood: { in: number[][]; out8: number[][]; out4: number[][] }[];
  din18202_t3_mm: { lengths_m: number[]; normative_columns_m: number[] } & Record<`row${1 | 2 | 3 | 4}`, number[]>;
}
type P = [number, number, number];
const checks = JSON.parse(readFileSync(new URL("./data/checks.json", import.meta.url), "utf8")) as Checks;
const CLOSED = { source: "closed form", status: "RECOMPUTED" } as const;
const DIGITS = "double precision";

export const surfaceProofs: Proof[] = [
  ...slabProofs(),
  ...tableProofs(),
  ...floodProofs(),
  ...terraceProofs(),
  ...practiceProofs(),
  ...volumeProofs(),
  ...shapeProofs(),
  ...secondOpinions(),
];

/** On three neighbouring points of a profile a straightedge shows half the second difference, so q = 2 gaps. */
function slabProofs(): Proof[] {
  const { dx_mm, elev_mm, published_q_mm, tol_q } = checks.slac_slab_E1155M;
  const common = {
    source: "SLAC Alignment Engineering Group sheet on ASTM E1155M-96, 2003",
    status: "READ",
    unit: "mm",
    allowed: tol_q,
    why: "elevations and q printed to 0.001 mm from inches",
  } as const;
  return Object.entries(elev_mm).map(([name, z]) => {
    const published = published_q_mm[name]!;
    let worst = 0;
    for (const [i, q] of published.entries()) {
      const three = z.slice(i, i + 3);
      const places = [0, dx_mm, 2 * dx_mm];
      const hollow = largestGap(places, three, 3, 2 * dx_mm)?.gap ?? 0;
      const hump =
        largestGap(
          places,
          three.map((h) => -h),
          3,
          2 * dx_mm,
        )?.gap ?? 0;
      worst = Math.max(worst, Math.abs(2 * (hollow - hump) - q));
    }
    return {
      ...common,
      id: `slab-q-${name}`,
      claim: `profile ${name}: largest difference of ${published.length} second differences from the published ones`,
      published: 0,
      ours: worst,
    };
  });
}

function tableProofs(): Proof[] {
  const table = checks.din18202_t3_mm;
  return ([1, 2, 3, 4] as const).map((row) => {
    const all = table[`row${row}`];
    const columns = table.normative_columns_m;
    const limitsMm = columns.map((m) => all[table.lengths_m.indexOf(m)]!);
    let worst = 0;
    for (const [i, m] of table.lengths_m.entries()) {
      worst = Math.max(worst, Math.abs(flatnessLimitMm({ lengthsM: columns, limitsMm }, m) - all[i]!));
    }
    return {
      id: `flatness-row-${row}`,
      claim: `row ${row}: limits at ${all.length} lengths from the five columns, largest difference from the printed table`,
      source: "DIN 18202 table 3",
      status: "2nd",
      published: 0,
      ours: worst,
      allowed: row === 2 ? 1 : 0,
      unit: "mm",
      why:
        row === 2
          ? "the secondary page prints 12 mm at 3.5 m, where straight between its columns is 11.3"
          : "whole millimetres",
    };
  });
}

function floodProofs(): Proof[] {
  const grid = checks.flood[0]!;
  return ([4, 8] as const).map((way) => {
    const columns = grid.in[0]!.length;
    const z = grid.in.flat();
    const rim = z.flatMap((_, i) => {
      const [r, c] = [Math.floor(i / columns), i % columns];
      return r === 0 || c === 0 || r === grid.in.length - 1 || c === columns - 1 ? [i] : [];
    });
    const out = (way === 4 ? grid.out4 : grid.out8).flat();
    const level = floodLevels(gridGraph(z, columns, way), rim);
    return {
      id: `flood-${way}`,
      claim: `grid filled over ${way} neighbours: largest difference of ${z.length} cells`,
      source: "cgmorton/flood-fill, tests/test_floodfill.py",
      status: "READ",
      published: 0,
      ours: Math.max(...out.map((v, i) => Math.abs(v - level[i]!))),
      allowed: 0,
      unit: "as given",
      why: "comparisons only, no arithmetic",
    };
  });
}

/** Limits of the verdict, found by making a hollow deeper (wider, nearer) until it is refused. */
function terraceProofs(): Proof[] {
  const job = baseJob();
  // A pit in the middle of an eight-sided hollow: water stands to its rim, whatever triangles are drawn beyond.
  const hollow = (depth: number, r: number): P[] => {
    const d = r * Math.SQRT1_2;
    const rim = [
      [r, 0],
      [d, d],
      [0, r],
      [-d, d],
      [-r, 0],
      [-d, -d],
      [0, -r],
      [d, -d],
    ];
    const corners = [
      [-3000, -3000],
      [3000, -3000],
      [3000, 3000],
      [-3000, 3000],
    ];
    return [...corners, ...rim].map(([x, y]): P => [x! + 3000, y! + 3000, 0]).concat([[3000, 3000, -depth]]);
  };
  const refused = (depth: number, r: number): boolean =>
    judgeSurface(job, baseSurvey(rectangle(6000, 6000), hollow(depth, r))).findings.some((f) => f.code === "puddle");
  const threshold = (low: number, high: number, bad: (v: number) => boolean): number => {
    for (let k = 0; k < 24; k++) {
      const middle = (low + high) / 2;
      if (bad(middle)) high = middle;
      else low = middle;
    }
    return (low + high) / 2;
  };
  const areaOf = (r: number): number => {
    const survey = baseSurvey(rectangle(6000, 6000), hollow(4, r));
    return findPuddles(meshBase(survey, survey.levels)!, () => true).puddles[0]!.areaMm2 / 1e6;
  };
  const common = { source: "NHBC Standards 2018, 9.1.11", status: "READ" } as const;
  return [
    {
      ...common,
      id: "puddle-depth",
      claim: "deepest water that may stand on a terrace",
      published: 5,
      ours: threshold(1, 20, (d) => refused(d, 300)),
      allowed: 1e-4,
      unit: "mm",
      why: "found by halving",
    },
    {
      ...common,
      id: "puddle-width",
      claim: "widest water that may stand on a terrace",
      published: 1,
      ours: areaOf(threshold(300, 1500, (r) => refused(4, r))),
      allowed: 1e-4,
      unit: "m2",
      why: "found by halving",
    },
  ];
}

function practiceProofs(): Proof[] {
  const { limits } = baseJob().base;
  const common = {
    source: "common practice, no source",
    status: "practice",
    allowed: 0,
    why: "a default is a choice",
  } as const;
  return [
    {
      ...common,
      id: "practice-unevenness",
      claim: "point unevenness of the base, default limit",
      published: 5,
      ours: limits.unevenness,
      unit: "mm",
    },
    {
      ...common,
      id: "practice-deviation",
      claim: "deviation of the base from its line, default limit",
      published: 10,
      ours: limits.deviation,
      unit: "mm",
    },
    {
      ...common,
      id: "practice-fall",
      claim: "fall of the base, default least",
      published: 2,
      ours: limits.fallMin,
      unit: "%",
    },
    {
      ...common,
      id: "regularity-sr2",
      claim: "default unevenness is surface regularity SR2 under a 2 m bar",
      source: "BS 8204",
      status: "2nd",
      published: 5,
      ours: limits.straightedge === 2000 ? limits.unevenness : Number.NaN,
      unit: "mm",
    },
  ];
}

function volumeProofs(): Proof[] {
  const next = steadyNumbers(77);
  const common = {
    source: "surveying textbooks: the formula; figures ours",
    status: "RECOMPUTED",
    unit: "l",
    why: DIGITS,
  } as const;
  const [nx, ny, cell] = [7, 5, 600];
  const along = Array.from({ length: nx + 1 }, () => 10 + 20 * next());
  const across = Array.from({ length: ny + 1 }, () => 10 + 20 * next());
  let weighted = 0;
  for (let i = 0; i <= nx; i++) {
    for (let j = 0; j <= ny; j++) {
      // Corners of the field meet one cell, its edges two, inner points four.
      weighted += (i === 0 || i === nx ? 1 : 2) * (j === 0 || j === ny ? 1 : 2) * (along[i]! + across[j]!);
    }
  }
  const grid = baseSurvey(
    rectangle(nx * cell, ny * cell),
    gridLevels(nx * cell, ny * cell, cell, (x, y) => along[x / cell]! + across[y / cell]!),
  );
  const mesh = meshBase(grid, grid.levels)!;
  // A wedge cut by a plane: heights q x - r y above nothing; sections across are triangles, their areas quadratic in x.
  const [length, width, q, r] = [4000, 3000, 0.02, 0.03];
  const wedge = baseSurvey(
    rectangle(length, width),
    gridLevels(length, width, 1000, (x, y) => q * x - r * y),
  );
  const section = (x: number) => (q * x * q * x) / (2 * r);
  const wedgeMesh = meshBase(wedge, wedge.levels)!;
  return [
    {
      ...common,
      id: "volume-grid",
      claim: "volume over a grid, A/4 (S1 + 2 S2 + 3 S3 + 4 S4)",
      published: (((cell * cell) / 4) * weighted) / 1e6,
      ours: aboveLevel(mesh, mesh.z).volumeMm3 / 1e6,
      allowed: 1e-7,
    },
    {
      ...common,
      id: "volume-prismoid",
      claim: "volume of a cut wedge, L (A1 + 4 Am + A2) / 6",
      published: (length * (section(0) + 4 * section(length / 2) + section(length))) / 6e6,
      ours: aboveLevel(wedgeMesh, wedgeMesh.z).volumeMm3 / 1e6,
      allowed: 1e-7,
    },
  ];
}

function shapeProofs(): Proof[] {
  const gap = (w: number, h: number, step: number, z: (x: number, y: number) => number) => {
    const survey = baseSurvey(rectangle(w, h), gridLevels(w, h, step, z));
    return searchStraightedge(meshBase(survey, survey.levels)!, 2000, 1e6).worst?.gapMm ?? 0;
  };
  const k = 4e-6;
  const ridge = judgeSurface(
    baseJob(),
    baseSurvey(
      rectangle(8000, 4000),
      gridLevels(8000, 4000, 500, (x) => -0.02 * Math.abs(x - 4000)),
    ),
  ).surface!;
  const pit = baseSurvey(rectangle(4000, 4000), [...gridLevels(4000, 4000, 4000, () => 0), [2000, 2000, -30]]);
  const puddle = findPuddles(meshBase(pit, pit.levels)!, () => true).puddles[0]!;
  const ridgePoints = gridLevels(8000, 4000, 500, (x) => -0.02 * Math.abs(x - 4000));
  return [
    {
      ...CLOSED,
      id: "bar-valley",
      claim: "gap in a valley of slopes 2 % either side: m L / 2",
      published: 20,
      ours: gap(6000, 3000, 500, (x) => 0.02 * Math.abs(x - 3000)),
      allowed: 1e-9,
      unit: "mm",
      why: DIGITS,
    },
    {
      ...CLOSED,
      id: "bar-ridge",
      claim: "gap over a ridge: a bar rocks, nothing between supports",
      published: 0,
      ours: gap(6000, 3000, 500, (x) => -0.02 * Math.abs(x - 3000)),
      allowed: 1e-9,
      unit: "mm",
      why: DIGITS,
    },
    {
      ...CLOSED,
      id: "bar-cylinder",
      claim: "gap in a trough z = k x x: the chord's sagitta k L L / 4",
      published: (k * 2000 * 2000) / 4,
      ours: gap(4000, 1000, 100, (x) => k * (x - 2000) * (x - 2000)),
      allowed: (k * 100 * 100) / 2,
      unit: "mm",
      why: "sampled at 100 mm: between samples the surface stands up to k 100 100 / 4 above the trough",
    },
    {
      ...CLOSED,
      id: "bar-paraboloid",
      claim: "gap in a bowl z = k r r: the chord's sagitta k L L / 4",
      published: (k * 2000 * 2000) / 4,
      ours: gap(3000, 3000, 125, (x, y) => k * ((x - 1500) * (x - 1500) + (y - 1500) * (y - 1500))),
      allowed: k * 125 * 125,
      unit: "mm",
      why: "sampled at 125 mm, and diagonals of its cells",
    },
    {
      ...CLOSED,
      id: "ridge-fall",
      claim: "8 x 4 m slab with a ridge: the lesser fall of its two facets",
      published: 2,
      ours: ridge.facets.length === 2 ? Math.min(...ridge.facets.map((f) => f.plane.fall)) : Number.NaN,
      allowed: 1e-9,
      unit: "%",
      why: DIGITS,
    },
    {
      ...CLOSED,
      id: "ridge-zone",
      claim: "the same slab as one plane: half width, half its rise",
      published: 40,
      ours: minimumZone(ridgePoints)!.halfWidth,
      allowed: 1e-9,
      unit: "mm",
      why: DIGITS,
    },
    {
      ...CLOSED,
      id: "pyramid-volume",
      claim: "pit 4 x 4 m, 30 mm deep: a third of base times depth",
      published: (4 * 4 * 30) / 3,
      ours: puddle.volumeMm3 / 1e6,
      allowed: 1e-9,
      unit: "l",
      why: DIGITS,
    },
  ];
}

function probed(name: string): P[] {
  return readPoints(readFileSync(new URL(`../fixtures/data/${name}.xyz`, import.meta.url), "utf8"));
}

function secondOpinions(): Proof[] {
  const before = probed("probed-starting-mesh");
  const after = probed("probed-post-surfacing-2-mesh");
  const real = "a real probed surface, 0.9 x 1.1 m (fixtures/data)";
  const both: [string, P[]][] = [
    ["120", before],
    ["437", after],
  ];
  return both.flatMap(([count, points]) => {
    const plane = fitPlane(points)!;
    const other = planeByMatrix(points);
    const apart = Math.max(
      ...points.map(([x, y]) => Math.abs((plane.a - other.a) * x + (plane.b - other.b) * y + plane.c - other.c)),
    );
    const terms = points.map(([x, y, z]): Term => ({ row: [x / 1000, y / 1000, 1], z, up: 3.5, down: 9 }));
    const held: Term = { row: [0, 1, 0], z: -0.02 * 1000, up: 1e4, down: 0 };
    const common = {
      status: "RECOMPUTED",
      unit: "mm",
      allowed: 1e-6,
      why: "two programmes, each to its own last digits",
    } as const;
    return [
      {
        ...common,
        id: `plane-${count}`,
        claim: `least-squares plane of ${count} readings: largest distance from the package's`,
        source: `ml-matrix (QR) on ${real}`,
        published: 0,
        ours: apart,
      },
      {
        ...common,
        id: `zone-${count}`,
        claim: `minimum-zone plane of ${count} readings: half width`,
        source: `HiGHS on ${real}`,
        published: halfWidthBySolver(points),
        ours: minimumZone(points)!.halfWidth,
      },
      {
        ...common,
        id: `cheapest-${count}`,
        claim: `cheapest plane for ${count} readings, filling 3.5, grinding 9`,
        source: `HiGHS on ${real}`,
        unit: "cost",
        published: cheapestBySolver(terms, 3),
        ours: cheapestFit(terms, 3)!.cost,
        allowed: 1e-5,
      },
      {
        ...common,
        id: `cheapest-fall-${count}`,
        claim: `the same with 2 % of fall towards +y`,
        source: `HiGHS on ${real}`,
        unit: "cost",
        published: cheapestBySolver([...terms, held], 3),
        ours: cheapestFit([...terms, held], 3)!.cost,
        allowed: 1e-4,
      },
    ];
  });
}
