import type { Pt } from "../../../papers/sheet.ts";

/** What the board looks at: the site point in its middle, and 1 : scale of a paper millimetre on the screen. */
export interface Camera {
  at: Pt;
  scale: number;
}
export interface Bounds {
  x0: number;
  y0: number;
  x1: number;
  y1: number;
}
/** Size of the board, CSS px. */
export type Size = readonly [width: number, height: number];

/** Screen pixels (CSS) of a paper millimetre. */
export const PX_PER_MM = 96 / 25.4;
/** Room round the site for figures, paper mm; on a narrow screen at most this share of it. */
const MARGIN_MM = 24;
const MARGIN_SHARE = 0.19;
/** Closest and farthest look. */
const SCALES = { least: 1, most: 3000 };

/** The camera that shows all of `bounds` on a board of this size, CSS px. */
export function fitCamera(bounds: Bounds, width: number, height: number): Camera {
  const room = (px: number) => px / PX_PER_MM - 2 * Math.min(MARGIN_MM, (px / PX_PER_MM) * MARGIN_SHARE);
  const scale = Math.max((bounds.x1 - bounds.x0) / room(width), (bounds.y1 - bounds.y0) / room(height), 1);
  return { at: [(bounds.x0 + bounds.x1) / 2, (bounds.y0 + bounds.y1) / 2], scale };
}

/** Screen pixels of a site millimetre. */
export function pxPerMm(camera: Camera): number {
  return PX_PER_MM / camera.scale;
}

export function toScreen({ at, scale }: Camera, [width, height]: Size, [x, y]: Pt): Pt {
  const px = PX_PER_MM / scale;
  return [width / 2 + (x - at[0]) * px, height / 2 - (y - at[1]) * px];
}

export function toSitePoint({ at, scale }: Camera, [width, height]: Size, [x, y]: Pt): Pt {
  const mm = scale / PX_PER_MM;
  return [at[0] + (x - width / 2) * mm, at[1] - (y - height / 2) * mm];
}

/** The drawing follows the hand: moved by screen pixels. */
export function panned(camera: Camera, dx: number, dy: number): Camera {
  const mm = camera.scale / PX_PER_MM;
  return { ...camera, at: [camera.at[0] - dx * mm, camera.at[1] + dy * mm] };
}

/** Closer (factor above 1) or farther; the site point under `on` (screen px) stays where it is. */
export function zoomed(camera: Camera, size: Size, factor: number, on: Pt): Camera {
  const scale = Math.min(SCALES.most, Math.max(SCALES.least, camera.scale / factor));
  const [x, y] = toSitePoint(camera, size, on);
  const [cx, cy] = toSitePoint({ ...camera, scale }, size, on);
  return { at: [camera.at[0] + x - cx, camera.at[1] + y - cy], scale };
}

/** What is seen of the site. */
export function seen(camera: Camera, [width, height]: Size): Bounds {
  const mm = camera.scale / PX_PER_MM;
  const [x, y] = camera.at;
  return { x0: x - (width / 2) * mm, x1: x + (width / 2) * mm, y0: y - (height / 2) * mm, y1: y + (height / 2) * mm };
}
