import type { SetoutRecord } from "../setout/record.ts";
import type { Obstacle } from "./sweep.ts";

/** Everything that stands, sorted into bands of v so that a piece looks only at what is near. */
export interface Standing {
  bandUm: number;
  bands: Map<number, Obstacle[]>;
}

/** Walls, doors and kerbs of the outline as measured, and tall cut-outs without their gap. Open edges do not stand. */
export function standingOf(setout: SetoutRecord): Standing {
  const out: Standing = { bandUm: Math.max(1, setout.boardWidthUm), bands: new Map() };
  const { outline, edges, cutouts } = setout.site;
  edges.forEach((edge, i) => {
    if (edge.kind !== "wall" && edge.kind !== "door" && edge.kind !== "kerb") return;
    add(out, { p: outline[i]!, q: outline[(i + 1) % outline.length]!, what: "wall", name: "" });
  });
  for (const { height, ring, name } of cutouts) {
    if (height !== "tall") continue;
    for (let i = 0; i < ring.length; i++)
      add(out, { p: ring[i]!, q: ring[(i + 1) % ring.length]!, what: "cutout", name });
  }
  return out;
}

/** What may reach into v0 .. v1. */
export function standingNear(standing: Standing, v0: number, v1: number): Obstacle[] {
  const found: Obstacle[] = [];
  for (let band = Math.floor(v0 / standing.bandUm); band <= Math.floor(v1 / standing.bandUm); band++) {
    for (const obstacle of standing.bands.get(band) ?? []) if (!found.includes(obstacle)) found.push(obstacle);
  }
  return found;
}

function add(out: Standing, obstacle: Obstacle): void {
  const v0 = Math.min(obstacle.p[1], obstacle.q[1]);
  const v1 = Math.max(obstacle.p[1], obstacle.q[1]);
  for (let band = Math.floor(v0 / out.bandUm); band <= Math.floor(v1 / out.bandUm); band++) {
    const list = out.bands.get(band);
    if (list) list.push(obstacle);
    else out.bands.set(band, [obstacle]);
  }
}
