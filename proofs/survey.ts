import { readFileSync } from "node:fs";
import { loadJob } from "../core/plan/load.ts";
import { adjustDistances, type DistanceAdjustment, type DistanceNetwork } from "../core/solve/adjust.ts";
import type { Proof } from "./proof.ts";

/** Distance networks with published adjusted values, and areas with published figures, run through the survey. */
interface Network extends Omit<DistanceNetwork, "sd"> {
  sd?: number;
  adj: Record<string, [number, number]>;
  sd_adj_cm?: Record<string, [number, number]>;
  v_cm?: number[];
  s0_mm?: number;
}
interface Checks {
  trilat_benning_8_2: Network;
  trilat_ghilani_14_5: Network;
  trilat_strangborre_fix: Network;
  area_mahun: { NE: [number, number][]; cross_sums: [number, number]; area_recomputed: number };
  ifc_fzk_slab033: {
    outer: [number, number][];
    opening_local: [number, number][];
    gross: number;
    opening_area: number;
    net: number;
  };
}
const checks = JSON.parse(readFileSync(new URL("./data/checks.json", import.meta.url), "utf8")) as Checks;

const KRUMM = "collected by Krumm 2020 in the test data of GNU Gama";
const PRINTED_4 = "printed to 0.0001: half of that, and the source's own rounding";

export const surveyProofs: Proof[] = [
  ...networkProofs("benning", "Benning 2011, ex. 8-2", checks.trilat_benning_8_2, "m", 0.0001),
  ...networkProofs("ghilani", "Ghilani, Adjustment Computations, ex. 14.5", checks.trilat_ghilani_14_5, "ft", 0.0001),
  ...networkProofs("strang", "Strang & Borre 1997, ex. 10.1", checks.trilat_strangborre_fix, "m", 0.0001),
  ...areaProofs(),
];

function networkProofs(id: string, source: string, network: Network, unit: string, allowed: number): Proof[] {
  const sd = network.sd ?? 0.01;
  const result = adjustDistances({ ...network, sd });
  if (!result.ok) throw new Error(`${id}: mark ${result.loose} hangs loose`);
  const common = { source: `${source}, ${KRUMM}`, status: "READ" as const };
  const out: Proof[] = [];
  for (const [name, [x, y]] of Object.entries(network.adj)) {
    const { x: ourX, y: ourY } = result.points[name]!;
    const point = { ...common, allowed, unit, why: PRINTED_4 };
    out.push({
      ...point,
      id: `tape-${id}-${name}-x`.toLowerCase(),
      claim: `adjusted x of ${name}`,
      published: x,
      ours: ourX,
    });
    out.push({
      ...point,
      id: `tape-${id}-${name}-y`.toLowerCase(),
      claim: `adjusted y of ${name}`,
      published: y,
      ours: ourY,
    });
  }
  return [...out, ...deviationProofs(id, network, result, sd, common)];
}

function deviationProofs(
  id: string,
  network: Network,
  result: DistanceAdjustment,
  sd: number,
  common: { source: string; status: "READ" },
): Proof[] {
  const cm = { ...common, unit: "cm", allowed: 0.001, why: "printed to 0.001 cm" };
  const out: Proof[] = [];
  for (const [name, [x, y]] of Object.entries(network.sd_adj_cm ?? {})) {
    const { sigmaX, sigmaY } = result.points[name]!;
    out.push({
      ...cm,
      id: `tape-${id}-${name}-sx`.toLowerCase(),
      claim: `standard deviation of x of ${name}`,
      published: x,
      ours: sigmaX * 100,
    });
    out.push({
      ...cm,
      id: `tape-${id}-${name}-sy`.toLowerCase(),
      claim: `standard deviation of y of ${name}`,
      published: y,
      ours: sigmaY * 100,
    });
  }
  network.v_cm?.forEach((v, i) => {
    const { from, to, residual } = result.obs[i]!;
    out.push({
      ...cm,
      id: `tape-${id}-v-${from}-${to}`,
      claim: `residual of the distance ${from}-${to}`,
      published: v,
      ours: residual * 100,
    });
  });
  if (network.s0_mm !== undefined) {
    const claim = "standard deviation of unit weight";
    const why = "printed to 0.001 mm";
    out.push({
      ...common,
      id: `tape-${id}-s0`,
      claim,
      published: network.s0_mm,
      ours: (result.s0 ?? 0) * sd * 1000,
      allowed: 0.001,
      unit: "mm",
      why,
    });
  }
  return out;
}

function areaProofs(): Proof[] {
  const { area_mahun: mahun, ifc_fzk_slab033: slab } = checks;
  const [a, b] = mahun.cross_sums;
  const traverse = areasOf(mahun.NE.map(([north, east]) => [east, north]));
  const floor = areasOf(slab.outer, slab.opening_local);
  const mahunSource = "Mahun, open surveying notes, traverse computations ch. G, ex. 1";
  const ifcSource = "KIT sample house AC20-FZK-Haus.ifc, slab #59290, quantities in the file";
  const rounded = "corners are held to 0.001 mm: a quarter of that along the edge";
  return [
    {
      id: "area-mahun-sums",
      claim: "area of a traverse by coordinates, from the printed sums of products",
      source: mahunSource,
      status: "READ",
      published: Math.abs(a - b) / 2,
      ours: traverse.gross,
      allowed: 0.2,
      unit: "square units",
      why: "eight products printed to 0.1",
    },
    {
      id: "area-mahun",
      claim: "the same, recomputed from the printed coordinates",
      source: mahunSource,
      status: "RECOMPUTED",
      published: mahun.area_recomputed,
      ours: traverse.gross,
      allowed: 1e-4,
      unit: "square units",
      why: rounded,
    },
    {
      id: "area-ifc-gross",
      claim: "gross area of a slab",
      source: ifcSource,
      status: "READ",
      published: slab.gross,
      ours: floor.gross,
      allowed: 1e-9,
      unit: "m2",
      why: "whole millimetres: exact",
    },
    {
      id: "area-ifc-net",
      claim: "net area of a slab with an opening",
      source: ifcSource,
      status: "READ",
      published: slab.net,
      ours: floor.net,
      allowed: 1e-5,
      unit: "m2",
      why: rounded,
    },
    {
      id: "area-ifc-opening",
      claim: "area of the opening",
      source: ifcSource,
      status: "READ",
      published: slab.opening_area,
      ours: floor.gross - floor.net,
      allowed: 1e-5,
      unit: "m2",
      why: rounded,
    },
  ];
}

/** Gross and net area in square metres, by the survey itself, of rings in metres. */
function areasOf(
  outline: readonly (readonly number[])[],
  opening?: readonly (readonly number[])[],
): { gross: number; net: number } {
  const mm = (ring: readonly (readonly number[])[]): number[][] =>
    ring.map((point) => point.map((value) => value * 1000));
  const cutouts = opening ? [{ name: "opening", ring: mm(opening) }] : [];
  const job = {
    format: "rowline/job@1",
    title: "area",
    site: { outline: mm(outline), cutouts },
    // Long, wide boards: the printed traverse is 10 ha, and a job has a limit of boards.
    board: { lengths: [{ length: 6000 }], width: 250, rise: 25 },
  };
  const loaded = loadJob(JSON.stringify(job), "area.job.json");
  if (!loaded.ok) throw new Error(JSON.stringify(loaded.problems));
  return { gross: loaded.value.survey.areaMm2 / 1e6, net: loaded.value.survey.netAreaMm2 / 1e6 };
}
