import type { Job } from "../../job/job.ts";
import type { PreparationRecord } from "../preparation/record.ts";

/** Depths of holes, and with them least lengths of fixings, go in steps of this, mm (common practice, no source). */
const DEPTH_STEP_MM = 5;

/**
 * How deep a clip's fixing must reach at a place: `embed` in the base, and through what will lie on it there.
 * The filling at a place is the greatest of the three nearest readings of the chosen preparation, so that a fixing is
 * rather too long than short; ground places add nothing. Returns mm, rounded up to 5.
 * Cost: linear in the readings to prepare; near constant a place (readings in square cells).
 */
export function fixingDepths(job: Job, preparation: PreparationRecord): (xMm: number, yMm: number) => number {
  const chosen = preparation.chosen === null ? undefined : preparation.options[preparation.chosen];
  const stakes = (chosen?.stakes ?? []).map((stake) => ({ x: stake.at[0], y: stake.at[1], fill: stake.changeMm }));
  const nearest = fillAt(stakes);
  const embed = job.clips.fixing.embed;
  return (x, y) => Math.ceil((embed + nearest(x, y)) / DEPTH_STEP_MM - 1e-9) * DEPTH_STEP_MM;
}

interface Stake {
  x: number;
  y: number;
  fill: number;
}

/** Greatest filling (at least 0) of the three readings nearest to a place. */
function fillAt(stakes: readonly Stake[]): (x: number, y: number) => number {
  if (!stakes.some((stake) => stake.fill > 0)) return () => 0;
  let [xMin, yMin, xMax, yMax] = [stakes[0]!.x, stakes[0]!.y, stakes[0]!.x, stakes[0]!.y];
  for (const { x, y } of stakes) {
    xMin = Math.min(xMin, x);
    yMin = Math.min(yMin, y);
    xMax = Math.max(xMax, x);
    yMax = Math.max(yMax, y);
  }
  const cell = Math.max(1, Math.sqrt(((xMax - xMin + 1) * (yMax - yMin + 1)) / stakes.length));
  const columns = Math.floor((xMax - xMin) / cell) + 1;
  const rows = Math.floor((yMax - yMin) / cell) + 1;
  const cells: Stake[][] = [];
  const column = (x: number) => Math.min(columns - 1, Math.max(0, Math.floor((x - xMin) / cell)));
  const line = (y: number) => Math.min(rows - 1, Math.max(0, Math.floor((y - yMin) / cell)));
  for (const stake of stakes) {
    const key = line(stake.y) * columns + column(stake.x);
    cells[key] ??= [];
    cells[key].push(stake);
  }
  return (x, y) => {
    const want = Math.min(3, stakes.length);
    const [cx, cy] = [column(x), line(y)];
    for (let reach = 1; ; reach *= 2) {
      const near: { far: number; fill: number }[] = [];
      for (let r = Math.max(0, cy - reach); r <= Math.min(rows - 1, cy + reach); r++) {
        for (let c = Math.max(0, cx - reach); c <= Math.min(columns - 1, cx + reach); c++) {
          for (const s of cells[r * columns + c] ?? []) {
            near.push({ far: (s.x - x) * (s.x - x) + (s.y - y) * (s.y - y), fill: s.fill });
          }
        }
      }
      if (near.length < want) continue;
      near.sort((a, b) => a.far - b.far || b.fill - a.fill);
      const all = reach >= Math.max(columns, rows);
      // Nothing outside the searched cells can be nearer than `reach` cells: only then is the third nearest certain.
      if (!all && near[want - 1]!.far > reach * cell * (reach * cell)) continue;
      return near.slice(0, want).reduce((most, s) => Math.max(most, s.fill), 0);
    }
  };
}
