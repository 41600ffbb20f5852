/**
 * Speed as ratios in one run: layout + fixing + cutting of a half-bond terrace against one call of a general clipper on the
 * same strips, and growth with the area. Prints a table; `npm run bench`. Never a timed test.
 */
import { cpus } from "node:os";
import { FillRule, intersect, type Path64 } from "clipper2-ts";
import { type LoadedJob, loadJob } from "../core/plan/load.ts";
import { makePlan } from "../core/plan/make.ts";
import { chooseBond } from "../core/stages/bond/bond.ts";
import { cutBoards } from "../core/stages/cutting/cutting.ts";
import { fixClips } from "../core/stages/fixing/fixing.ts";
import type { SetoutRecord } from "../core/stages/setout/record.ts";
import { setOut } from "../core/stages/setout/setout.ts";
import { judgeSurface } from "../core/stages/surface/surface.ts";

/** A slightly slanting L with two posts, scaled to an area in m2. */
function terrace(areaM2: number, kind: string): LoadedJob {
  const side = Math.round(Math.sqrt((areaM2 * 1e6) / 0.82));
  const at = (f: number): number => Math.round(side * f);
  const job = {
    format: "rowline/job@1",
    title: `${areaM2} m2`,
    site: {
      outline: [
        [0, 0],
        [side, at(0.01)],
        [side, side],
        [at(0.45), side],
        [at(0.45), at(0.6)],
        [0, at(0.6)],
      ],
      cutouts: [
        {
          name: "post",
          ring: [
            [at(0.6), at(0.3)],
            [at(0.6) + 120, at(0.3)],
            [at(0.6) + 120, at(0.3) + 120],
            [at(0.6), at(0.3) + 120],
          ],
        },
        {
          name: "gully",
          ring: [
            [at(0.2), at(0.4)],
            [at(0.2) + 200, at(0.4)],
            [at(0.2) + 200, at(0.4) + 200],
            [at(0.2), at(0.4) + 200],
          ],
          height: "removable",
        },
      ],
    },
    base: { membrane: false, heating: false, tendons: false },
    board: { lengths: [{ length: 1500, price: 2140 }], width: 145, rise: 25 },
    bond: { kind },
  };
  const read = loadJob(JSON.stringify(job), `${areaM2} m2`);
  if (!read.ok) throw new Error(read.problems.map((p) => `${p.place} ${p.code}`).join("; "));
  return read.value;
}

interface Timed {
  ms: number;
  boards: number;
}

function layout(loaded: LoadedJob): { ms: number; setout: SetoutRecord; boards: number; parts: string } {
  const { job } = loaded.read;
  const surface = judgeSurface(job, loaded.survey);
  const t0 = performance.now();
  const setout = setOut(job, loaded.survey, surface);
  const t1 = performance.now();
  const bond = chooseBond(job, setout);
  const t2 = performance.now();
  fixClips(job, setout, bond);
  const t3 = performance.now();
  const cutting = cutBoards(job, setout, bond);
  const t4 = performance.now();
  const parts = [t1 - t0, t2 - t1, t3 - t2, t4 - t3].map((ms) => ms.toFixed(1)).join(" + ");
  return { ms: t4 - t0, setout, boards: cutting.boards.length, parts };
}

/** One intersection of every row strip with the field by a general polygon clipper. */
function generalClipper(setout: SetoutRecord): Timed {
  const toPath = (ring: readonly (readonly [number, number])[]): Path64 => ring.map(([u, v]) => ({ x: u, y: v, z: 0 }));
  const us = setout.site.outline.map(([u]) => u);
  const u0 = Math.min(...us) - 1000;
  const u1 = Math.max(...us) + 1000;
  const strips = setout.rows.map((row) =>
    toPath([
      [u0, row.v0Um],
      [u1, row.v0Um],
      [u1, row.v1Um],
      [u0, row.v1Um],
    ]),
  );
  const field = setout.field.flatMap((region) => [toPath(region.outer), ...region.holes.map(toPath)]);
  const start = performance.now();
  const out = intersect(field, strips, FillRule.NonZero);
  return { ms: performance.now() - start, boards: out.length };
}

function median(values: number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}

function row(areaM2: number, kind: string, runs: number): void {
  const loaded = terrace(areaM2, kind);
  let last = layout(loaded);
  for (let i = 0; i < Math.min(3, runs); i++) last = layout(loaded);
  const ours = [];
  const theirs = [];
  for (let i = 0; i < runs; i++) {
    last = layout(loaded);
    ours.push(last.ms);
    theirs.push(generalClipper(last.setout).ms);
  }
  const ms = median(ours);
  const clipper = median(theirs);
  const least = Math.min(...ours);
  const per = (ms * 1e6) / last.boards / Math.log2(last.boards);
  console.log(
    `${String(areaM2).padStart(6)} m2  ${kind.padEnd(5)} ${String(last.boards).padStart(6)} boards  ${ms.toFixed(1).padStart(8)} ms (least ${least.toFixed(1)})` +
      `  clipper ${clipper.toFixed(1).padStart(8)} ms  ratio ${(ms / clipper).toFixed(2).padStart(6)}  ns/(n log n) ${per.toFixed(0).padStart(6)}` +
      `  set-out + bond + fixing + cutting = ${last.parts}`,
  );
}

console.log(
  `node ${process.version}, ${cpus().length} x ${cpus()[0]?.model.trim() ?? "processor"}; medians after warm-up`,
);
row(60, "half", 21);
row(500, "half", 9);
row(2000, "half", 5);
row(10000, "half", 3);
row(60, "free", 7);
const whole = performance.now();
makePlan(terrace(60, "half"));
console.log(`whole plan of 60 m2, every stage: ${(performance.now() - whole).toFixed(0)} ms`);
