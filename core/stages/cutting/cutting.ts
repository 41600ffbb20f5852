import type { Finding, FindingsOf } from "../../base/finding.ts";
import { toMm, toUm } from "../../base/units.ts";
import { toSite } from "../../geometry/frame.ts";
import type { Job } from "../../job/job.ts";
import { boardStocks, ownedOf } from "../../job/stocks.ts";
import type { Stock } from "../../solve/bins.ts";
import { packLengths } from "../../solve/packing.ts";
import type { BondRecord } from "../bond/record.ts";
import type { SetoutRecord } from "../setout/record.ts";
import { assignUnits } from "./assign.ts";
import { certifyBest } from "./certificate.ts";
import { closeRows, packChains, type Row } from "./chain.ts";
import { areaUm2, demandUm } from "./demand.ts";
import type { CuttingFindings } from "./findings.ts";
import { jointsBound } from "./joints-bound.ts";
import { pileOf } from "./pile.ts";
import { type Cut, endsOf, jointEnds, placeRow } from "./place.ts";
import type { Board, BoundBy, CuttingRecord } from "./record.ts";
import type { CutSizes, Unit } from "./unit.ts";
import { unitsOf } from "./units.ts";

type Found = FindingsOf<CuttingFindings>;
/** More than any board. */
const MISSING_COST = 1e12;

/**
 * Which piece comes out of which board, and where: least cost of boards (those in the yard cost nothing), then fewest cuts, then what is left in one long
 * offcut. Every part lies a kerf from the next; a piece as long as its board needs no cut. Ripped strips share boards side
 * by side, slanting ends share cuts where the board may be turned. `boardsAtLeast` is proved by `bound` (record.ts).
 * Boards beyond the stock at hand are counted all the same, with a finding `supply`. Offcuts shorter than `cut.minOffcut`
 * count as waste and are not listed; wasteUm2 is board area less piece area; massKg is that of the boards used.
 * O(n log n) for n pieces of few lengths; limits count steps.
 */
export function cutBoards(job: Job, setout: SetoutRecord, bond: BondRecord): CuttingRecord {
  const sizes: CutSizes = { boardWidthUm: setout.boardWidthUm, kerfUm: toUm(job.cut.kerf) };
  const stocks = stocksOf(job);
  const findings: Finding[] = [];
  const units = unitsOf(job, bond, sizes);
  const rows = leastBought(job, units, stocks, sizes);
  const atJoint = jointEnds(bond);
  const cuts = rows.map((row) =>
    placeRow(bond, units, row, boardLength(units, row, stocks), toUm(job.cut.minOffcut), sizes, atJoint),
  );
  cuts.sort((a, b) => a.first - b.first);
  const boards = cuts.map(
    (c, i): Board => ({ id: `b${i + 1}`, lengthUm: c.lengthUm, parts: c.parts, offcuts: c.offcuts }),
  );
  const boardOf = new Array<number>(bond.pieces.length).fill(-1);
  const ends: CuttingRecord["ends"] = bond.pieces.map((): ["cut", "cut"] => ["cut", "cut"]);
  boards.forEach((board, b) => {
    for (const part of board.parts) boardOf[part.piece] = b;
    endsOf(bond, board.parts, board.lengthUm, ends);
  });
  findings.push(...supplyFindings(job, boards), ...longFindings(setout, bond, stocks));
  const pile = pileOf(bond, boards, boardOf);
  if (pile !== null) findings.push(pile);
  const bound = boundOf(job, setout, bond, sizes, stocks, boards.length);
  return { boards, boardOf, ends, ...bound, ...figuresOf(job, bond, cuts, sizes), findings };
}

function stocksOf(job: Job): Stock[] {
  const priced = job.board.lengths.some((l) => l.price > 0);
  return job.board.lengths.map((l) => ({
    length: toUm(l.length),
    cost: priced ? Math.max(l.price, 1e-3) : toUm(l.length),
    supply: l.stock,
  }));
}

/**
 * With boards in the yard the plan that takes them first and the one that does not know of them, whichever leaves less to
 * pay; the second has more ways to cut (packLengths, chains).
 */
function leastBought(job: Job, units: readonly Unit[], stocks: readonly Stock[], sizes: CutSizes): Row[] {
  const longestUm = longestOf(stocks);
  const plain = packed(units, stocks, sizes, longestUm);
  const yard = boardStocks(job);
  if (yard.stocks.length === stocks.length && yard.stocks.every((s, t) => s.cost === stocks[t]!.cost)) return plain;
  const first = packed(units, yard.stocks, sizes, longestUm).map(
    (row): Row => (row.stock < 0 ? row : { ...row, stock: yard.of[row.stock]! }),
  );
  return paidFor(job, first, stocks) < paidFor(job, plain, stocks) ? first : plain;
}

/** Cost of the boards that are not in the yard; one more than can be had costs more than any other. */
function paidFor({ board: { lengths } }: Job, rows: readonly Row[], stocks: readonly Stock[]): number {
  let sum = 0;
  for (const [t, length] of lengths.entries()) {
    const used = rows.reduce((n, row) => n + (row.stock === t ? 1 : 0), 0);
    sum += Math.max(0, used - ownedOf(length)) * stocks[t]!.cost;
    sum += Math.max(0, used - (length.stock ?? used)) * MISSING_COST;
  }
  return sum;
}

function longestOf(stocks: readonly Stock[]): number {
  return stocks.reduce((best, s) => Math.max(best, s.length), 0);
}

/** A piece longer than every board (a finding says so) stands on a board drawn as long as the longest. */
function boardLength(units: readonly Unit[], row: Row, stocks: readonly Stock[]): number {
  return row.stock >= 0 ? stocks[row.stock]!.length : Math.max(longestOf(stocks), units[row.square[0]!]!.lengthUm);
}

/** All units in boards: lengths alone, and where slanting ends may share cuts, chains as well; the cheaper of the two. */
function packed(units: readonly Unit[], stocks: readonly Stock[], sizes: CutSizes, longestUm: number): Row[] {
  const lone: Row[] = [];
  const fitting: number[] = [];
  for (let u = 0; u < units.length; u++) {
    if (units[u]!.lengthUm <= longestUm) fitting.push(u);
    else lone.push({ stock: -1, square: [u], chain: [], usedUm: units[u]!.lengthUm });
  }
  const boxes = byLength(units, fitting, stocks, sizes.kerfUm);
  const slanting = fitting.some((u) => units[u]!.rises[0] !== 0 || units[u]!.rises[1] !== 0);
  if (!slanting || stocks.some((s) => s.supply !== null)) return [...lone, ...boxes];
  const { whole, rest } = parted(units, fitting, stocks);
  let best = boxes;
  for (let t = 0; t < stocks.length; t++) {
    const rows = closeRows(units, packChains(units, rest, stocks, t, sizes), stocks, sizes).map((r) =>
      cheapest(r, stocks),
    );
    const all = [...whole, ...rows];
    if (costOf(all, stocks) < costOf(best, stocks)) best = all;
  }
  return [...lone, ...best];
}

/** Units as bare lengths: packed by kind, then given out in the order of laying. */
function byLength(units: readonly Unit[], which: readonly number[], stocks: readonly Stock[], kerfUm: number): Row[] {
  const kinds = new Map<number, number[]>();
  for (const u of which) {
    const list = kinds.get(units[u]!.lengthUm);
    if (list) list.push(u);
    else kinds.set(units[u]!.lengthUm, [u]);
  }
  const lengths = [...kinds.keys()].sort((a, b) => b - a);
  const items = lengths.map((length) => kinds.get(length)!);
  const packing = packLengths(
    stocks,
    lengths.map((length, k) => ({ length, count: items[k]!.length })),
    kerfUm,
  );
  return assignUnits(units, items, packing.bins);
}

/** Units as long as a board stand alone; the others may be chained. */
function parted(
  units: readonly Unit[],
  which: readonly number[],
  stocks: readonly Stock[],
): { whole: Row[]; rest: number[] } {
  const whole: Row[] = [];
  const rest: number[] = [];
  for (const u of which) {
    const lengthUm = units[u]!.lengthUm;
    const stock = stocks.findIndex((s) => s.length === lengthUm);
    if (stock >= 0) whole.push(cheapest({ stock, square: [u], chain: [], usedUm: lengthUm }, stocks));
    else rest.push(u);
  }
  return { whole, rest };
}

function cheapest(row: Row, stocks: readonly Stock[]): Row {
  let stock = row.stock;
  for (let t = 0; t < stocks.length; t++)
    if (stocks[t]!.length >= row.usedUm && stocks[t]!.cost < stocks[stock]!.cost) stock = t;
  return { ...row, stock };
}

function costOf(rows: readonly Row[], stocks: readonly Stock[]): number {
  let sum = 0;
  for (const row of rows) sum += stocks[row.stock]!.cost;
  return sum;
}

/** In free bond over all legal joints, else for these pieces: the best of three measures, each proved alone. */
function boundOf(
  job: Job,
  setout: SetoutRecord,
  bond: BondRecord,
  sizes: CutSizes,
  stocks: readonly Stock[],
  reached: number,
): Pick<CuttingRecord, "boardsAtLeast" | "bound"> {
  if (bond.kind === "free") return jointsBound(job, setout, bond, sizes, longestOf(stocks));
  const same = bond.pieces.every((p) => p.plain && p.widthUm === sizes.boardWidthUm);
  const measures: BoundBy[] = same
    ? ["area"]
    : job.board.grooves === "none"
      ? ["area", "middle"]
      : ["area", "edges", "middle"];
  const { by, certificate } = certifyBest(
    longestOf(stocks) + sizes.kerfUm,
    measures.map((measure) => ({
      by: measure,
      demands: bond.pieces.map((p) => demandUm(job, p, sizes.boardWidthUm, sizes.kerfUm, measure)),
    })),
    reached,
  );
  const duals = certificate.duals.map(([um, dual]): [number, number] => [toMm(um), dual]);
  return { boardsAtLeast: certificate.bins, bound: { scope: "pieces", by, scale: certificate.scale, duals } };
}

function figuresOf(
  job: Job,
  bond: BondRecord,
  cuts: readonly Cut[],
  sizes: CutSizes,
): Pick<CuttingRecord, "cuts" | "rips" | "wasteUm2" | "massKg"> {
  let across = 0;
  let along = 0;
  let metres = 0;
  let lengthUm = 0;
  for (const cut of cuts) {
    across += cut.cuts;
    along += cut.rips;
    lengthUm += cut.lengthUm;
  }
  metres = lengthUm / 1e6;
  let area = 0;
  for (const piece of bond.pieces) area += areaUm2(piece);
  return {
    cuts: across,
    rips: along,
    wasteUm2: lengthUm * sizes.boardWidthUm - area,
    massKg: Math.round(metres * job.board.mass * 1000) / 1000,
  };
}

function supplyFindings(job: Job, boards: readonly Board[]): Found[] {
  let missing = 0;
  let atHand = 0;
  for (const length of job.board.lengths) {
    if (length.stock === null) return [];
    atHand += length.stock;
    const used = boards.reduce((n, b) => n + (b.lengthUm === toUm(length.length) ? 1 : 0), 0);
    missing += Math.max(0, used - length.stock);
  }
  if (missing === 0) return [];
  return [
    {
      code: "supply",
      rule: "supply",
      level: "stop",
      at: null,
      found: boards.length,
      limit: atHand,
      releasedBy: "person",
      data: { missing, needed: boards.length, atHand },
    },
  ];
}

function longFindings(setout: SetoutRecord, bond: BondRecord, stocks: readonly Stock[]): Found[] {
  const longest = longestOf(stocks);
  return bond.pieces
    .filter((p) => p.lengthUm > longest)
    .map((p) => ({
      code: "pieceTooLong",
      rule: "boards",
      level: "stop",
      at: toSite(setout.frame, (p.u0Um + p.u1Um) / 2, (p.v0Um + p.v1Um) / 2),
      found: toMm(p.lengthUm),
      limit: toMm(longest),
      releasedBy: null,
      data: { piece: p.id, lengthMm: toMm(p.lengthUm), longestMm: toMm(longest) },
    }));
}
