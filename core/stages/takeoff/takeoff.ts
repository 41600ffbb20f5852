import type { Finding, FindingsOf } from "../../base/finding.ts";
import { toMm } from "../../base/units.ts";
import { toSite } from "../../geometry/frame.ts";
import type { Job } from "../../job/job.ts";
import { ownedOf } from "../../job/stocks.ts";
import type { BondRecord } from "../bond/record.ts";
import type { CuttingRecord } from "../cutting/record.ts";
import type { FixingRecord } from "../fixing/record.ts";
import type { PreparationRecord } from "../preparation/record.ts";
import type { SetoutRecord } from "../setout/record.ts";
import type { SurveyRecord } from "../survey/record.ts";
import { fixingDepths } from "./depth.ts";
import type { TakeoffFindings } from "./findings.ts";
import type { TakeoffItem, TakeoffRecord } from "./record.ts";
import { spareBoards, spareOf } from "./spares.ts";
import { layTrims } from "./trims.ts";

/** Holes a drill bit is good for (common practice, no source). */
const HOLES_A_BIT = 100;
/** Primer under filling, litres a square metre (common practice, no source; the material's sheet goes before it). */
const PRIMER_L_A_M2 = 0.15;

/**
 * What to buy for what is drawn.
 *
 * need: what is drawn. Boards by stock length; clips by kind; a fixing for each hole of each clip, by least length;
 * screws through ripped edges; trim stock lengths and their screws; bags or litres of the chosen preparation.
 * spare: boards (whole job) max(spares.boardsAtLeast, ceil(spares.boards x plain + spares.boardsSlanting x slanting)),
 *   all of the longest length used, since it can stand in for any; what its stock does not give comes from the next
 *   shorter. Each kind of clip ceil(spares.clips x need). Each fixing, screw and trim screw ceil(spares.fixings x need).
 *   All else 0. Every ceil is of the product less 1e-9.
 * pack: board.lengths[].pack, or job.packs[item], else 1. A length with a stock at hand is counted singly: pack 1.
 * owned: boards already in the fitter's yard, as far as need and spare take them.
 * buy: ceil((need + spare - owned) / pack) x pack, so less than a pack over. An item with need 0 is left out.
 * price: board.lengths[].price, trim.price, material cost x litres a bag, else job.prices[item] or the item's family
 *   ("fixing" for "fixing-45"); null is named in `unpriced`.
 * totalMinor: sum over priced items of round(buy x price), halves upward.
 */
export function takeOff(
  job: Job,
  survey: SurveyRecord,
  preparation: PreparationRecord,
  setout: SetoutRecord,
  bond: BondRecord,
  fixing: FixingRecord,
  cutting: CuttingRecord,
): TakeoffRecord {
  const findings: FindingsOf<TakeoffFindings>[] = [];
  const trimming = layTrims(job, survey);
  const depthAt = fixingDepths(job, preparation);
  const depthsMm = fixing.clips.map((clip) => depthAt(...toSite(setout.frame, clip.uUm, clip.vUm)));
  const items = [
    ...boardItems(job, bond, cutting, findings),
    ...clipItems(job, fixing),
    ...fixingItems(job, preparation, depthsMm, findings),
    ...singleItems(job, fixing, trimming),
    ...preparationItems(job, survey, preparation),
  ].filter((item) => item.need > 0);
  const unpriced = items.filter((item) => item.price === null).map((item) => item.item);
  if (unpriced.length > 0) findings.push(find("unpriced", "note", unpriced.length, null, { items: unpriced }));
  return {
    items,
    trims: trimming.trims,
    depthsMm,
    totalMinor: items.reduce((sum, item) => sum + lineMinor(item), 0),
    unpriced,
    findings: [...findings, ...trimming.findings] as Finding[],
  };
}

/** The money of a line in minor units, whole; 0 where there is no price. */
export function lineMinor(item: TakeoffItem): number {
  return item.price === null ? 0 : Math.round(item.buy * item.price);
}

function boardItems(
  job: Job,
  bond: BondRecord,
  cutting: CuttingRecord,
  findings: FindingsOf<TakeoffFindings>[],
): TakeoffItem[] {
  const lengths = [...job.board.lengths].sort((a, b) => b.length - a.length);
  const wanted = spareBoards(job, bond, cutting);
  let open = wanted;
  const items: TakeoffItem[] = [];
  for (const stock of lengths) {
    const need = cutting.boards.filter((board) => toMm(board.lengthUm) === stock.length).length;
    if (need === 0) continue;
    const spare = stock.stock === null ? open : Math.max(0, Math.min(open, stock.stock - need));
    open -= spare;
    const pack = stock.stock === null ? stock.pack : 1;
    const name = `${job.board.name} ${stock.length}`.trim();
    const owned = Math.min(ownedOf(stock), need + spare);
    items.push(line(`board-${stock.length}`, name, "pc", need, spare, pack, stock.price, owned));
  }
  if (open > 0) findings.push(find("spareStock", "warn", wanted - open, wanted, { wanted, had: wanted - open }));
  const packs = items.reduce((sum, item) => sum + (item.pack > 1 ? item.buy / item.pack : 0), 0);
  if (packs > 1) findings.push(find("batches", "note", packs, null, { packs }));
  return items;
}

function clipItems(job: Job, fixing: FixingRecord): TakeoffItem[] {
  return (["start", "seam", "last", "end"] as const).map((kind) => {
    const need = fixing.counts[kind];
    return bought(job, `clip-${kind}`, `clip-${kind} ${job.clips.length}`, "pc", need, spareOf(need, job.spares.clips));
  });
}

function fixingItems(
  job: Job,
  preparation: PreparationRecord,
  depthsMm: readonly number[],
  findings: FindingsOf<TakeoffFindings>[],
): TakeoffItem[] {
  const { diameter, embed, holes } = job.clips.fixing;
  if (depthsMm.length === 0 || holes.length === 0) return [];
  const counts = new Map<number, number>();
  for (const depth of depthsMm) counts.set(depth, (counts.get(depth) ?? 0) + holes.length);
  const lengths = [...counts.keys()].sort((a, b) => a - b);
  if (job.base.kind === "tiles" || job.base.kind === "paving") {
    findings.push(find("fixingDepth", "warn", null, null, { embedMm: embed, kind: job.base.kind }, "reading"));
  }
  if (preparation.chosen === null) {
    findings.push(find("fixingNoLevels", "note", null, null, { embedMm: embed }, "reading"));
  }
  if (lengths.length > 1) {
    const data = { leastMm: lengths[0]!, greatestMm: lengths[lengths.length - 1]!, lengths: lengths.length };
    findings.push(find("fixingLengths", "note", lengths.length, null, data));
  }
  return lengths.map((length) => {
    const need = counts.get(length)!;
    const spare = spareOf(need, job.spares.fixings);
    return bought(job, `fixing-${length}`, `fixing ${diameter} x ${length}`, "pc", need, spare);
  });
}

/** Screws through boards and trims, the trims themselves, and bits to drill with. */
function singleItems(job: Job, fixing: FixingRecord, trimming: { bars: number; screws: number }): TakeoffItem[] {
  const share = job.spares.fixings;
  const screws = fixing.screws.length;
  const holes = fixing.clips.length * job.clips.fixing.holes.length;
  const items = [bought(job, "screw", "screw", "pc", screws, spareOf(screws, share))];
  if (job.trim) {
    const { length, leg, thickness, price } = job.trim;
    const item = `trim-${length}`;
    items.push(
      line(item, `trim ${leg} x ${thickness} x ${length}`, "pc", trimming.bars, 0, job.packs?.[item] ?? 1, price),
    );
    items.push(bought(job, "trim-screw", "trim-screw", "pc", trimming.screws, spareOf(trimming.screws, share)));
  }
  items.push(bought(job, "bit", `bit ${job.clips.fixing.diameter}`, "pc", Math.ceil(holes / HOLES_A_BIT), 0));
  return items;
}

function preparationItems(job: Job, survey: SurveyRecord, preparation: PreparationRecord): TakeoffItem[] {
  const chosen = preparation.chosen === null ? undefined : preparation.options[preparation.chosen];
  if (!chosen) return [];
  const known = job.base.preparation.materials;
  const items = chosen.materials.map((used) => {
    const index = known.findIndex((material) => material.name === used.name);
    const cost = known[index]?.cost ?? (used.litres > 0 ? used.costMinor / used.litres : 0);
    const item = `fill-${index + 1}`;
    const pack = job.packs?.[item] ?? 1;
    const bag = known[index]?.bag ?? null;
    if (used.bags === null || bag === null) {
      return line(item, used.name, "l", Math.ceil(used.litres - 1e-9), 0, pack, cost);
    }
    return line(item, used.name, "bag", used.bags, 0, pack, Math.round(cost * bag));
  });
  const filled = chosen.stakes.filter((stake) => stake.changeMm > 0).length;
  if (items.length === 0 || filled === 0) return items;
  const areaM2 = (survey.areaMm2 / 1_000_000) * (filled / chosen.stakes.length);
  return [...items, bought(job, "primer", "primer", "l", Math.ceil(areaM2 * PRIMER_L_A_M2 - 1e-9), 0)];
}

/** A line whose price and pack stand in `job.prices` and `job.packs`, under the item or its family. */
function bought(
  job: Job,
  item: string,
  name: string,
  unit: TakeoffItem["unit"],
  need: number,
  spare: number,
): TakeoffItem {
  const family = item.replace(/-\d+$/, "");
  const price = job.prices[item] ?? job.prices[family] ?? null;
  return line(item, name, unit, need, spare, job.packs?.[item] ?? job.packs?.[family] ?? 1, price);
}

function line(
  item: string,
  name: string,
  unit: TakeoffItem["unit"],
  need: number,
  spare: number,
  pack: number,
  price: number | null,
  owned = 0,
): TakeoffItem {
  const buy = Math.ceil((need + spare - owned) / pack) * pack;
  return { item, name, unit, need, spare, pack, buy, ...(owned > 0 ? { owned } : {}), price };
}

function find<C extends keyof TakeoffFindings>(
  code: C,
  level: "warn" | "note",
  found: number | null,
  limit: number | null,
  data: TakeoffFindings[C],
  releasedBy: "reading" | null = null,
): FindingsOf<TakeoffFindings> {
  return { code, rule: "takeoff", level, at: null, found, limit, releasedBy, data } as FindingsOf<TakeoffFindings>;
}
