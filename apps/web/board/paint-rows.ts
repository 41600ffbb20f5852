import { clipSizeMm } from "../../../papers/drawing/boards.ts";
import { markParts } from "../../../papers/marks.ts";
import { type Camera, PX_PER_MM, pxPerMm, type Size, seen } from "./camera.ts";
import { piecesIn, type Rows, type Spots, spotsIn, type UvBox, uvBox } from "./rows.ts";
import { paintSprite, type Sprite, spriteOf } from "./symbol.ts";
import type { Tones } from "./tones.ts";

/** How much of a board is shown, by the width it has on the screen, CSS px. */
const DETAIL = { pieces: 4, outline: 9, ends: 12, grain: 18 };
/** Clips this near each other are shown as their line; symbols this small as dots. CSS px. */
const CLIP = { apart: 7, symbol: 9, dot: 3, far: 2 };
const OUTLINE_PX = 0.8;

/**
 * Boards and clips straight from the prepared rows, in the row frame. From afar rows are single fills, nearer each board is
 * one, nearest it has its outline, ends and grain. What is not seen costs nothing but the search.
 */
export function paintBoards(pen: Pen, rows: Rows, camera: Camera, size: Size, tones: Tones, pale: boolean): void {
  const px = pxPerMm(camera);
  const wide = rows.widthMm * px;
  const box = uvBox(rows, seen(camera, size));
  pen.save();
  intoFrame(pen, rows, camera, size);
  if (wide < DETAIL.pieces) paintRuns(pen, rows, box, tones.board);
  else {
    if (wide < DETAIL.outline) paintRuns(pen, rows, box, tones.gap);
    const pale2 = pale ? tones.gap : tones.ink;
    paintPieces(pen, rows, box, px, wide >= DETAIL.outline ? pale2 : null, tones.board, tones.gap);
    if (!pale) paintStrokes(pen, rows, box, px, wide, camera.scale, tones);
  }
  paintShaped(pen, rows, box, px, wide >= DETAIL.pieces, tones, pale);
  pen.restore();
}
export type Pen = CanvasRenderingContext2D;

/** Makes the pen draw in the row frame, mm. */
function intoFrame(pen: Pen, { x, y, cos, sin }: Rows, camera: Camera, [width, height]: Size): void {
  const px = pxPerMm(camera);
  const [cx, cy] = camera.at;
  pen.transform(px * cos, -px * sin, -px * sin, -px * cos, width / 2 + (x - cx) * px, height / 2 - (y - cy) * px);
}

function paintRuns(pen: Pen, { runs }: Rows, box: UvBox, colour: string): void {
  pen.fillStyle = colour;
  for (let i = 0; i < runs.length; i += 4) {
    if (runs[i + 1]! > box.v1) break;
    if (runs[i + 3]! < box.v0 || runs[i]! > box.u1 || runs[i + 2]! < box.u0) continue;
    pen.fillRect(runs[i]!, runs[i + 1]!, runs[i + 2]! - runs[i]!, runs[i + 3]! - runs[i + 1]!);
  }
}

/** Plain boards: their outline as a rectangle under a slightly smaller one, which costs two fills and no stroke. */
function paintPieces(
  pen: Pen,
  { pieces, shaped, record, ...rest }: Rows,
  box: UvBox,
  px: number,
  outline: string | null,
  face: string,
  gap: string,
): void {
  const rows = { pieces, shaped, record, ...rest };
  const inset = outline ? OUTLINE_PX / px : Math.max(0, (0.7 / px - record.job.gaps.side) / 2);
  if (outline) {
    pen.fillStyle = outline;
    piecesIn(rows, box, (i) => {
      if (!shaped[i]) fill(pen, pieces, i, 0);
    });
  } else pen.fillStyle = gap;
  pen.fillStyle = face;
  piecesIn(rows, box, (i) => {
    if (!shaped[i]) fill(pen, pieces, i, inset);
  });
}

function fill(pen: Pen, pieces: Float64Array, i: number, inset: number): void {
  const at = i * 4;
  const u0 = pieces[at]! + inset;
  const v0 = pieces[at + 1]! + inset;
  pen.fillRect(u0, v0, pieces[at + 2]! - inset - u0, pieces[at + 3]! - inset - v0);
}

/** Grain, cut ends and ripped edges. */
function paintStrokes(pen: Pen, rows: Rows, box: UvBox, px: number, wide: number, scale: number, tones: Tones): void {
  if (wide < DETAIL.ends) return;
  // Strokes are made anew only at steps of the scale, not with each notch of the wheel.
  const step = 2 ** (Math.round(Math.log2(scale) * 2) / 2);
  const passes = [
    { colour: tones.grey, of: rows.grain, on: wide >= DETAIL.grain, widthMm: 0.13 },
    { colour: tones.ink, of: (i: number) => rows.strokes(i, step), on: true, widthMm: 0.25 },
  ];
  for (const { colour, of, on, widthMm } of passes) {
    if (!on) continue;
    // Every stroke lies along or across the row: a rectangle costs a tenth of a path.
    pen.fillStyle = colour;
    const half = (widthMm * PX_PER_MM) / px / 2;
    piecesIn(rows, box, (i) => {
      for (const { from, to } of of(i)) {
        const [u0, u1] = [Math.min(from[0], to[0]) / 1000, Math.max(from[0], to[0]) / 1000];
        const [v0, v1] = [Math.min(from[1], to[1]) / 1000, Math.max(from[1], to[1]) / 1000];
        const [du, dv] = u1 - u0 > v1 - v0 ? [0, half] : [half, 0];
        pen.fillRect(u0 - du, v0 - dv, u1 - u0 + 2 * du, v1 - v0 + 2 * dv);
      }
    });
  }
}

/** Boards with slanting ends, round ones and those with holes: as paths. */
function paintShaped(
  pen: Pen,
  rows: Rows,
  box: UvBox,
  px: number,
  outline: boolean,
  tones: Tones,
  pale: boolean,
): void {
  pen.fillStyle = tones.board;
  pen.strokeStyle = pale || rows.widthMm * px < DETAIL.outline ? tones.gap : tones.ink;
  pen.lineWidth = OUTLINE_PX / px;
  piecesIn(rows, box, (i) => {
    if (!rows.shaped[i]) return;
    tracePiece(pen, rows, i);
    pen.fill("evenodd");
    if (outline) pen.stroke();
  });
}

/** Begins a path round a piece. */
export function tracePiece(pen: Pen, { record }: Rows, piece: number): void {
  const { region } = record.bond.pieces[piece]!;
  pen.beginPath();
  for (const ring of [region.outer, ...region.holes]) {
    for (const [i, [u, v]] of ring.entries()) {
      if (i === 0) pen.moveTo(u / 1000, v / 1000);
      else pen.lineTo(u / 1000, v / 1000);
    }
    pen.closePath();
  }
}

/** The picked piece: a broad chalk line round it, inside its edge. */
export function paintPicked(pen: Pen, rows: Rows, piece: number, camera: Camera, size: Size, tones: Tones): void {
  pen.save();
  intoFrame(pen, rows, camera, size);
  tracePiece(pen, rows, piece);
  pen.fillStyle = tones.picked;
  pen.fill("evenodd");
  pen.strokeStyle = tones.accent;
  pen.lineWidth = 3 / pxPerMm(camera);
  pen.stroke();
  pen.restore();
}

/** True where single clips can be told apart: then they can be tapped. */
export function clipsApart(rows: Rows, camera: Camera): boolean {
  return meanSpacingMm(rows) * pxPerMm(camera) >= CLIP.apart;
}

const SYMBOL = { start: "clip-start", seam: "clip-seam", last: "clip-last", end: "clip-end" } as const;

export function paintClips(pen: Pen, rows: Rows, camera: Camera, size: Size, tones: Tones): void {
  const px = pxPerMm(camera);
  const box = uvBox(rows, seen(camera, size));
  if (!clipsApart(rows, camera)) {
    paintSeams(pen, rows, camera, size, box, tones);
    return;
  }
  const { record } = rows;
  const sizePx = clipSizeMm(record, camera.scale) * PX_PER_MM;
  const at = placer(rows, camera, size);
  if (sizePx < CLIP.symbol) {
    pen.fillStyle = tones.ink;
    // On whole pixels nothing has to be blended.
    const dot = sizePx < CLIP.symbol / 1.5 ? CLIP.far : CLIP.dot;
    for (const spots of [rows.clips, rows.screws])
      spotsIn(spots, box, (k) => {
        const u = spots.u[k]!;
        const v = spots.v[k]!;
        const x = at.x + at.ux * u + at.vx * v - dot / 2;
        const y = at.y + at.uy * u + at.vy * v - dot / 2;
        pen.fillRect(Math.round(x), Math.round(y), dot, dot);
      });
    return;
  }
  const turn = record.setout.frame.angleDeg;
  const sprites = Object.fromEntries(
    Object.entries(SYMBOL).map(([kind, symbol]) => [kind, spriteOf(symbol, sizePx, turn, tones.ink, tones.sheet)]),
  );
  const screw = spriteOf("screw", sizePx, turn, tones.ink, tones.sheet);
  const margin = sizePx / px;
  const wide = { u0: box.u0 - margin, v0: box.v0 - margin, u1: box.u1 + margin, v1: box.v1 + margin };
  const put = (spots: Spots, sprite: (index: number) => Sprite | null) =>
    spotsIn(spots, wide, (k) => {
      const stamp = sprite(spots.index[k]!);
      if (!stamp) return;
      const u = spots.u[k]!;
      const v = spots.v[k]!;
      paintSprite(pen, stamp, at.x + at.ux * u + at.vx * v, at.y + at.uy * u + at.vy * v);
    });
  const { clips } = record.fixing;
  paintSeamClips(pen, rows, wide, at, sizePx, tones.ink);
  put(rows.clips, (index) => (clips[index]!.kind === "seam" ? null : sprites[clips[index]!.kind]!));
  put(rows.screws, () => screw);
}

/** Diamonds in one path: measured, ten to twenty are the quickest; thousands are thirty times slower. */
const IN_ONE_PATH = 16;

/** Clips between rows, nine of ten of all: their symbol is one diamond, filled many at a time. */
function paintSeamClips(
  pen: Pen,
  { clips, record }: Rows,
  box: UvBox,
  at: ReturnType<typeof placer>,
  sizePx: number,
  ink: string,
): void {
  const { cos, sin } = record.setout.frame;
  const diamond = markParts("clip-seam")[0]!.points.map(
    ([x, y]) => [(x * cos - y * sin) * sizePx, -(x * sin + y * cos) * sizePx] as const,
  );
  pen.fillStyle = ink;
  let count = 0;
  pen.beginPath();
  spotsIn(clips, box, (k) => {
    if (record.fixing.clips[clips.index[k]!]!.kind !== "seam") return;
    const u = clips.u[k]!;
    const v = clips.v[k]!;
    const x = at.x + at.ux * u + at.vx * v;
    const y = at.y + at.uy * u + at.vy * v;
    pen.moveTo(x + diamond[0]![0], y + diamond[0]![1]);
    for (let i = 1; i < diamond.length; i++) pen.lineTo(x + diamond[i]![0], y + diamond[i]![1]);
    pen.closePath();
    if (++count % IN_ONE_PATH > 0) return;
    pen.fill();
    pen.beginPath();
  });
  pen.fill();
}

/** Row frame to screen as six figures: a call a clip would cost more than the clip. */
function placer({ x, y, cos, sin }: Rows, camera: Camera, [width, height]: Size) {
  const px = pxPerMm(camera);
  return {
    x: width / 2 + (x - camera.at[0]) * px,
    y: height / 2 - (y - camera.at[1]) * px,
    ux: px * cos,
    vx: -px * sin,
    uy: -px * sin,
    vy: -px * cos,
  };
}

function paintSeams(pen: Pen, rows: Rows, camera: Camera, size: Size, box: UvBox, tones: Tones): void {
  const thin = 1 / pxPerMm(camera);
  pen.save();
  intoFrame(pen, rows, camera, size);
  pen.fillStyle = tones.grey;
  const { seams } = rows;
  for (let i = 0; i < seams.length; i += 4) {
    if (seams[i + 1]! < box.v0 || seams[i + 1]! > box.v1) continue;
    pen.fillRect(seams[i]!, seams[i + 1]! - thin / 2, seams[i + 2]! - seams[i]!, thin);
  }
  pen.restore();
}

function meanSpacingMm({ seams, clips }: Rows): number {
  let length = 0;
  for (let i = 0; i < seams.length; i += 4) length += seams[i + 2]! - seams[i]!;
  return clips.u.length === 0 ? Infinity : length / clips.u.length;
}
