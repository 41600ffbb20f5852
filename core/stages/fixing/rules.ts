import { toUm } from "../../base/units.ts";
import type { Job } from "../../job/job.ts";

/** The clip rules of a job in whole micrometres, with what follows from them. */
export interface ClipRules {
  length: number;
  /** Greatest distance between neighbouring anchors. */
  most: number;
  endMax: number;
  startEndMax: number;
  perPiece: number;
  tolerance: number;
  slabEdge: number;
  jointEdge: number;
  /** A joint clip's anchor lies within this of the joint's middle, so that it holds both pieces. */
  grip: number;
  /** Where the base is drilled, from the anchor: the anchor itself and every hole. */
  holes: [number, number][];
  diameter: number;
  holeEdge: number;
  sideGap: number;
  endGap: number;
}

export function clipRules(job: Job, sideGapUm: number): ClipRules {
  const c = job.clips;
  const length = toUm(c.length);
  const endGap = toUm(job.gaps.end);
  const holes: [number, number][] = [[0, 0]];
  for (const [x, y] of c.fixing.holes) {
    const hole: [number, number] = [toUm(x), toUm(y)];
    if (!holes.some((h) => h[0] === hole[0] && h[1] === hole[1])) holes.push(hole);
  }
  return {
    length,
    most: toUm(c.clearMax) + (c.measure === "clear" ? length : 0),
    endMax: toUm(c.endMax),
    startEndMax: toUm(c.startEndMax),
    perPiece: Math.max(1, Math.round(c.perPiece)),
    tolerance: toUm(c.tolerance),
    slabEdge: toUm(c.slabEdge),
    jointEdge: toUm(c.jointEdge),
    grip: Math.max(0, Math.floor((length - endGap) / 4)),
    holes,
    diameter: toUm(c.fixing.diameter),
    holeEdge: toUm(job.cut.holeEdge),
    sideGap: sideGapUm,
    endGap,
  };
}
