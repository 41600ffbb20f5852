import { flattenEdge } from "../../../core/geometry/arc.ts";
import { readableTurn } from "../../../papers/readable.ts";
import type { Dash, Fill, Ink, Item, Pt } from "../../../papers/sheet.ts";
import { type Bounds, type Camera, PX_PER_MM, pxPerMm, type Size, seen, toScreen } from "./camera.ts";
import type { Pen } from "./paint-rows.ts";
import { paintSymbol } from "./symbol.ts";
import type { Tones } from "./tones.ts";

const WIDTH_MM: Record<Ink, number> = { thick: 0.5, medium: 0.35, thin: 0.18 };
const DASH_MM: Record<Dash, number[]> = { solid: [], dash: [2, 1], chain: [4, 1, 0.6, 1], dot: [0.4, 0.8] };
/** Font size to height of the capitals (papers/widths.ts: 668 thousandths of the em). */
const EM_OF_CAPITALS = 1000 / 668;

/** An item with what painting it needs: the box it lies in (site mm) and its path, made once. */
export interface Prepared {
  item: Item;
  box: Bounds;
  path: Path2D | null;
}

export function prepare(items: readonly Item[]): Prepared[] {
  return items.map((item) => {
    const rings =
      item.kind === "path" ? [pointsOf(item)] : item.kind === "region" ? item.rings : ([[item.at]] as const);
    const box = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
    for (const ring of rings)
      for (const [x, y] of ring) {
        box.x0 = Math.min(box.x0, x);
        box.x1 = Math.max(box.x1, x);
        box.y0 = Math.min(box.y0, y);
        box.y1 = Math.max(box.y1, y);
      }
    if (item.kind !== "path" && item.kind !== "region") return { item, box, path: null };
    const path = new Path2D();
    for (const ring of rings) {
      for (const [i, [x, y]] of ring.entries()) {
        if (i === 0) path.moveTo(x, y);
        else path.lineTo(x, y);
      }
      if (item.kind === "region" || item.closed) path.closePath();
    }
    return { item, box, path };
  });
}

function pointsOf({ points, bulges, closed }: Item & { kind: "path" }): readonly Pt[] {
  if (!bulges) return points;
  const out: [number, number][] = [];
  const edges = closed ? points.length : points.length - 1;
  points.forEach(([x, y], i) => {
    if (i === 0) out.push([x, y]);
    if (i >= edges) return;
    const [x1, y1] = points[(i + 1) % points.length]!;
    flattenEdge(x, y, x1, y1, bulges[i] ?? 0, out, 0.5);
  });
  return out;
}

/** Paints items in their order; those outside the view are passed over. */
export function paintItems(pen: Pen, items: readonly Prepared[], camera: Camera, size: Size, tones: Tones): void {
  const view = seen(camera, size);
  // Texts and symbols reach farther than their point.
  const reach = 60 * camera.scale;
  for (const one of items) {
    const { item, box } = one;
    const by = one.path ? camera.scale : reach;
    if (box.x1 < view.x0 - by || box.x0 > view.x1 + by || box.y1 < view.y0 - by || box.y0 > view.y1 + by) continue;
    if (one.path) paintPath(pen, one, camera, size, tones);
    else if (item.kind === "text") paintText(pen, item, toScreen(camera, size, item.at), tones);
    else if (item.kind === "mark") paintMark(pen, item, toScreen(camera, size, item.at), tones);
  }
}

function paintPath(pen: Pen, one: Prepared, camera: Camera, size: Size, tones: Tones): void {
  const { item, path } = one;
  if (item.kind !== "path" && item.kind !== "region") return;
  const px = pxPerMm(camera);
  if (item.fill && "hatchDeg" in item.fill) paintHatch(pen, one, item.fill, camera, size, tones);
  pen.save();
  intoSite(pen, camera, size);
  if (item.fill && "colour" in item.fill) {
    pen.fillStyle = tones.fill(item.fill.colour);
    pen.fill(path!, "evenodd");
  }
  if (item.stroke) {
    pen.strokeStyle = tones[item.stroke.tone];
    pen.lineWidth = Math.max(1, WIDTH_MM[item.stroke.ink] * PX_PER_MM) / px;
    pen.setLineDash(DASH_MM[item.stroke.dash].map((mm) => (mm * PX_PER_MM) / px));
    pen.lineJoin = item.stroke.dash === "solid" ? "miter" : "round";
    pen.stroke(path!);
  }
  pen.restore();
}

function intoSite(pen: Pen, camera: Camera, [width, height]: Size): void {
  const px = pxPerMm(camera);
  pen.transform(px, 0, 0, -px, width / 2 - camera.at[0] * px, height / 2 + camera.at[1] * px);
}

/** Parallel lines, a paper spacing apart, through the seen part of an area; they lie still on the site while it is moved. */
function paintHatch(
  pen: Pen,
  { box, path }: Prepared,
  fill: Extract<Fill, { hatchDeg: number }>,
  camera: Camera,
  size: Size,
  tones: Tones,
): void {
  const view = seen(camera, size);
  const x0 = Math.max(box.x0, view.x0);
  const x1 = Math.min(box.x1, view.x1);
  const y0 = Math.max(box.y0, view.y0);
  const y1 = Math.min(box.y1, view.y1);
  if (x1 < x0 || y1 < y0) return;
  const px = pxPerMm(camera);
  const turn = (fill.hatchDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const step = fill.spacingMm * camera.scale;
  const along = (x: number, y: number) => x * cos + y * sin;
  const across = (x: number, y: number) => y * cos - x * sin;
  const corners = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ] as const;
  const alongs = corners.map(([x, y]) => along(x, y));
  const acrosses = corners.map(([x, y]) => across(x, y));
  const [a0, a1] = [Math.min(...alongs), Math.max(...alongs)];
  pen.save();
  intoSite(pen, camera, size);
  pen.clip(path!, "evenodd");
  pen.beginPath();
  for (let k = Math.ceil(Math.min(...acrosses) / step); k * step <= Math.max(...acrosses); k++) {
    const c = k * step;
    pen.moveTo(a0 * cos - c * sin, a0 * sin + c * cos);
    pen.lineTo(a1 * cos - c * sin, a1 * sin + c * cos);
  }
  pen.strokeStyle = tones[fill.tone];
  pen.lineWidth = Math.max(0.7, WIDTH_MM.thin * PX_PER_MM) / px;
  pen.stroke();
  pen.restore();
}

function paintText(pen: Pen, item: Item & { kind: "text" }, [x, y]: Pt, tones: Tones): void {
  const em = item.heightMm * PX_PER_MM * EM_OF_CAPITALS;
  const height = item.heightMm * PX_PER_MM;
  pen.save();
  pen.translate(x, y);
  const { deg, turned } = readableTurn(item.turnDeg);
  const align = turned ? TURNED[item.align] : item.align;
  pen.rotate((-deg * Math.PI) / 180);
  pen.font = `${item.bold ? "700 " : ""}${em}px Atkinson, sans-serif`;
  pen.textAlign = align === "centre" ? "center" : align;
  pen.textBaseline = "alphabetic";
  const onBase = item.stand === (turned ? "top" : "base");
  const foot = item.stand === "middle" ? height / 2 : onBase ? 0 : height;
  if (item.ground) {
    const width = pen.measureText(item.text).width;
    const left = align === "left" ? 0 : align === "centre" ? -width / 2 : -width;
    pen.fillStyle = item.layer === "text" ? tones.board : tones.sheet;
    pen.fillRect(left - 2, foot - height - 2, width + 4, height + 4);
  }
  pen.fillStyle = item.layer === "text" && item.tone === "grey" ? tones.onBoard : tones[item.tone];
  pen.fillText(item.text, 0, foot);
  pen.restore();
}

const TURNED = { left: "right", right: "left", centre: "centre" } as const;

function paintMark(pen: Pen, item: Item & { kind: "mark" }, [x, y]: Pt, tones: Tones): void {
  pen.save();
  pen.translate(x, y);
  pen.rotate((-item.turnDeg * Math.PI) / 180);
  paintSymbol(pen, item.symbol, item.sizeMm * PX_PER_MM, tones[item.tone], tones.sheet);
  pen.restore();
  if (!item.number) return;
  pen.font = "700 13px Atkinson, sans-serif";
  pen.textAlign = "left";
  pen.textBaseline = "middle";
  pen.fillStyle = tones[item.tone];
  pen.fillText(item.number, x + (item.sizeMm * PX_PER_MM) / 2 + 3, y + 1);
}
