import type { Ink, Item, Pt, Tone } from "../../../papers/sheet.ts";
import { type Camera, PX_PER_MM } from "./camera.ts";

const WIDTH_MM: Record<Ink, number> = { thick: 0.5, medium: 0.35, thin: 0.18 };
const DASH_MM = { solid: [], dash: [2, 1], chain: [4, 1, 0.6, 1], dot: [0.4, 0.8] };

/** Paints items in their order. */
export function paint(canvas: HTMLCanvasElement, items: readonly Item[], camera: Camera): void {
  const ratio = window.devicePixelRatio;
  const [width, height] = [canvas.clientWidth, canvas.clientHeight];
  canvas.width = width * ratio;
  canvas.height = height * ratio;
  const pen = canvas.getContext("2d")!;
  const style = getComputedStyle(canvas);
  const colour = (tone: Tone) => style.getPropertyValue(`--draw-${tone}`) || "#222";
  const px = PX_PER_MM / camera.scale;
  const at = ([x, y]: Pt): Pt => [width / 2 + (x - camera.at[0]) * px, height / 2 - (y - camera.at[1]) * px];
  pen.scale(ratio, ratio);
  for (const item of items) {
    if (item.kind === "path" || item.kind === "region") {
      const rings = item.kind === "path" ? [item.points] : item.rings;
      pen.beginPath();
      for (const ring of rings) {
        ring.forEach((point, i) => {
          const [x, y] = at(point);
          if (i === 0) pen.moveTo(x, y);
          else pen.lineTo(x, y);
        });
        if (item.kind === "region" || item.closed) pen.closePath();
      }
      if (item.fill && "colour" in item.fill && item.fill.colour !== "#ffffff") {
        pen.fillStyle = item.fill.colour;
        pen.fill("evenodd");
      }
      if (item.stroke) {
        pen.strokeStyle = colour(item.stroke.tone);
        pen.lineWidth = WIDTH_MM[item.stroke.ink] * PX_PER_MM;
        pen.setLineDash(DASH_MM[item.stroke.dash].map((mm) => mm * PX_PER_MM));
        pen.stroke();
      }
    } else if (item.kind === "text") {
      const [x, y] = at(item.at);
      pen.save();
      pen.translate(x, y);
      pen.rotate((-item.turnDeg * Math.PI) / 180);
      pen.font = `${item.bold ? "bold " : ""}${item.heightMm * PX_PER_MM * 1.4}px Atkinson, sans-serif`;
      pen.textAlign = item.align === "centre" ? "center" : item.align;
      pen.textBaseline = item.stand === "base" ? "alphabetic" : item.stand;
      pen.fillStyle = colour(item.tone);
      pen.fillText(item.text, 0, 0);
      pen.restore();
    } else {
      const [x, y] = at(item.at);
      pen.fillStyle = colour(item.tone);
      pen.beginPath();
      pen.arc(x, y, (item.sizeMm * PX_PER_MM) / 3, 0, 7);
      pen.fill();
    }
  }
}
