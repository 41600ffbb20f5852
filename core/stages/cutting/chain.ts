import type { Stock } from "../../solve/bins.ts";
import type { CutSizes, Unit } from "./unit.ts";

/** Units of one board from left to right: square ones first, then those whose slanting ends share cuts. */
export interface Row {
  stock: number;
  square: number[];
  chain: { unit: number; turned: boolean }[];
  usedUm: number;
}

/** Room between the boxes of two neighbours so that they lie a kerf apart; negative where slanting ends interlock. */
export function gapBetween(rightRiseUm: number, leftRiseUm: number, sizes: CutSizes): number {
  if (rightRiseUm * leftRiseUm <= 0) return sizes.kerfUm;
  const overlap = Math.min(Math.abs(rightRiseUm), Math.abs(leftRiseUm));
  const steep = Math.max(Math.abs(rightRiseUm), Math.abs(leftRiseUm)) / sizes.boardWidthUm;
  return Math.min(sizes.kerfUm, Math.ceil(sizes.kerfUm * Math.sqrt(1 + steep * steep)) - overlap);
}

export function leftRise(unit: Unit, turned: boolean): number {
  return unit.rises[turned ? 1 : 0];
}
export function rightRise(unit: Unit, turned: boolean): number {
  return unit.rises[turned ? 0 : 1];
}

/**
 * Best-fit decreasing where the room a unit takes depends on the slanting end it meets: turning by 180 degrees keeps the
 * direction of a cut, so any two ends of equal direction may share one. O(units * boards).
 */
export function packChains(
  units: readonly Unit[],
  which: readonly number[],
  stocks: readonly Stock[],
  main: number,
  sizes: CutSizes,
): Row[] {
  const order = which.slice().sort((a, b) => units[b]!.lengthUm - units[a]!.lengthUm || a - b);
  const rows: Row[] = [];
  for (const index of order) {
    const fit = bestPlace(units, rows, -1, index, stocks, sizes);
    if (fit !== null) {
      put(units, rows[fit.row]!, index, fit.turned, fit.usedUm);
      continue;
    }
    const unit = units[index]!;
    let stock = main;
    if (stocks[main]!.length < unit.lengthUm)
      stock = stocks.reduce(
        (best, s, t) => (s.length >= unit.lengthUm && (best < 0 || s.length < stocks[best]!.length) ? t : best),
        -1,
      );
    const row: Row = { stock, square: [], chain: [], usedUm: 0 };
    rows.push(row);
    // The slanting end looks right, where the next one can meet it.
    put(units, row, index, unit.turnable && unit.rises[1] === 0 && unit.rises[0] !== 0, unit.lengthUm);
  }
  return rows;
}

/** Takes the emptiest boards apart and fits their units in elsewhere, as long as that saves boards. */
export function closeRows(units: readonly Unit[], rows: Row[], stocks: readonly Stock[], sizes: CutSizes): Row[] {
  let now = rows;
  for (let round = 0; round < 400; round++) {
    const byRest = now.map((_, k) => k).sort((a, b) => now[a]!.usedUm - now[b]!.usedUm || a - b);
    let closed: Row[] | null = null;
    for (const k of byRest.slice(0, 8)) {
      closed = withoutRow(units, now, k, stocks, sizes);
      if (closed !== null) break;
    }
    if (closed === null) return now;
    now = closed;
  }
  return now;
}

function withoutRow(
  units: readonly Unit[],
  rows: readonly Row[],
  k: number,
  stocks: readonly Stock[],
  sizes: CutSizes,
): Row[] | null {
  const trial = rows.map((r) => ({ ...r, square: r.square.slice(), chain: r.chain.slice() }));
  const moved = [...rows[k]!.square, ...rows[k]!.chain.map((c) => c.unit)];
  moved.sort((a, b) => units[b]!.lengthUm - units[a]!.lengthUm || a - b);
  for (const index of moved) {
    const fit = bestPlace(units, trial, k, index, stocks, sizes);
    if (fit === null) return null;
    put(units, trial[fit.row]!, index, fit.turned, fit.usedUm);
  }
  trial.splice(k, 1);
  return trial;
}

interface Place {
  row: number;
  turned: boolean;
  usedUm: number;
}

function bestPlace(
  units: readonly Unit[],
  rows: readonly Row[],
  except: number,
  index: number,
  stocks: readonly Stock[],
  sizes: CutSizes,
): Place | null {
  const unit = units[index]!;
  const slanting = unit.rises[0] !== 0 || unit.rises[1] !== 0;
  let best: Place | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (let r = 0; r < rows.length; r++) {
    if (r === except) continue;
    const row = rows[r]!;
    const length = stocks[row.stock]!.length;
    const last = slanting ? row.chain[row.chain.length - 1] : undefined;
    const rise = last === undefined ? 0 : rightRise(units[last.unit]!, last.turned);
    for (const turned of slanting && unit.turnable ? [false, true] : [false]) {
      const usedUm = row.usedUm + unit.lengthUm + gapBetween(rise, leftRise(unit, turned), sizes);
      // An open slanting end to the right is worth a little: another may meet it.
      const rest =
        (length - usedUm) * 2 - (rightRise(unit, turned) !== 0 ? 1 : 0) - (usedUm - row.usedUm < unit.lengthUm ? 2 : 0);
      if (usedUm > length || rest >= least) continue;
      least = rest;
      best = { row: r, turned, usedUm };
    }
  }
  return best;
}

function put(units: readonly Unit[], row: Row, index: number, turned: boolean, usedUm: number): void {
  const unit = units[index]!;
  if (unit.rises[0] !== 0 || unit.rises[1] !== 0) row.chain.push({ unit: index, turned });
  else row.square.push(index);
  row.usedUm = usedUm;
}
