import { roundMm, UM_PER_MM } from "../base/units.ts";
import { directionOf } from "./direction.ts";

/** u along the rows, v 90 degrees to its left, whole micrometres from the origin. */
export type Uv = readonly [u: number, v: number];
/** A closed ring of whole micrometres, first point not repeated; counter-clockwise, holes clockwise. */
export type Ring = readonly Uv[];
/** A region: one outer ring and its holes. */
export interface Region {
  outer: Ring;
  holes: Ring[];
}

/** The row frame. Directions are held as a unit vector; multiples of 90 degrees are exact. */
export interface Frame {
  originXMm: number;
  originYMm: number;
  angleDeg: number;
  cos: number;
  sin: number;
}

/** A frame at an origin (mm, rounded to 0.001) turned by an angle in degrees. */
export function frameAt(originXMm: number, originYMm: number, angleDeg: number): Frame {
  const [cos, sin] = directionOf(angleDeg);
  return { originXMm: roundMm(originXMm), originYMm: roundMm(originYMm), angleDeg, cos, sin };
}

/** Site millimetres to whole micrometres in the frame: turned once, rounded once. */
export function toFrame(frame: Frame, xMm: number, yMm: number): Uv {
  const dx = xMm - frame.originXMm;
  const dy = yMm - frame.originYMm;
  return [
    Math.round((dx * frame.cos + dy * frame.sin) * UM_PER_MM) + 0,
    Math.round((dy * frame.cos - dx * frame.sin) * UM_PER_MM) + 0,
  ];
}

/** Micrometres in the frame to site millimetres, rounded to 0.001 mm. For output only: never read back. */
export function toSite(frame: Frame, u: number, v: number): [x: number, y: number] {
  const uMm = u / UM_PER_MM;
  const vMm = v / UM_PER_MM;
  return [
    roundMm(frame.originXMm + uMm * frame.cos - vMm * frame.sin),
    roundMm(frame.originYMm + uMm * frame.sin + vMm * frame.cos),
  ];
}
