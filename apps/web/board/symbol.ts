import { markParts } from "../../../papers/marks.ts";
import type { MarkSymbol } from "../../../papers/sheet.ts";

/** Outline of a symbol, share of its size: 0.18 mm at 3 mm. */
const LINE_SHARE = 0.07;

/** Draws one of our symbols round the pen's origin, `sizePx` high, y up. */
export function paintSymbol(
  pen: CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D,
  symbol: MarkSymbol,
  sizePx: number,
  ink: string,
  paper: string,
): void {
  pen.lineJoin = "round";
  pen.lineWidth = Math.max(1, sizePx * LINE_SHARE);
  for (const { points, closed, fill } of markParts(symbol)) {
    pen.beginPath();
    for (const [i, [x, y]] of points.entries()) {
      if (i === 0) pen.moveTo(x * sizePx, -y * sizePx);
      else pen.lineTo(x * sizePx, -y * sizePx);
    }
    if (closed) pen.closePath();
    if (fill !== "none") {
      pen.fillStyle = fill === "ink" ? ink : paper;
      pen.fill();
    }
    pen.strokeStyle = fill === "paper" && symbol === "stop" ? paper : ink;
    pen.stroke();
  }
}

/** A symbol painted once; `side` of its square, CSS px. */
export interface Sprite {
  bitmap: ImageBitmap;
  side: number;
  ratio: number;
}
const sprites = new Map<string, Sprite>();
const MOST_SPRITES = 200;

/** A symbol painted once, to be stamped thousands of times. */
export function spriteOf(symbol: MarkSymbol, sizePx: number, turnDeg: number, ink: string, paper: string): Sprite {
  const ratio = window.devicePixelRatio;
  const size = Math.round(sizePx * 2) / 2;
  const key = `${symbol} ${size} ${turnDeg} ${ink} ${paper} ${ratio}`;
  const known = sprites.get(key);
  if (known) return known;
  if (sprites.size >= MOST_SPRITES) sprites.clear();
  const wide = Math.ceil((size * 1.2 + 2) * ratio);
  const canvas = new OffscreenCanvas(wide, wide);
  const pen = canvas.getContext("2d")!;
  pen.translate(wide / 2, wide / 2);
  pen.scale(ratio, ratio);
  pen.rotate((-turnDeg * Math.PI) / 180);
  paintSymbol(pen, symbol, size, ink, paper);
  const sprite = { bitmap: canvas.transferToImageBitmap(), side: wide / ratio, ratio };
  sprites.set(key, sprite);
  return sprite;
}

/** Stamps a sprite with its middle at a place, CSS px, on whole pixels: then nothing has to be blended anew. */
export function paintSprite(
  pen: CanvasRenderingContext2D,
  { bitmap, side, ratio }: Sprite,
  x: number,
  y: number,
): void {
  const left = Math.round((x - side / 2) * ratio) / ratio;
  const top = Math.round((y - side / 2) * ratio) / ratio;
  pen.drawImage(bitmap, left, top, side, side);
}
