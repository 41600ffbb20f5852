import { type Look, onPaper, textBox } from "./drawing/look.ts";
import { type Bounds, boundsOf } from "./drawing/plane.ts";
import type { Item, Pt } from "./sheet.ts";

/** The paper mm a drawing takes in its view's axes, figures and symbols included; arcs by their flattened chords' hull. */
export function extentOf(items: readonly Item[], look: Look): Bounds {
  const out = { x0: Infinity, y0: Infinity, x1: -Infinity, y1: -Infinity };
  const add = (box: Bounds): void => {
    out.x0 = Math.min(out.x0, box.x0);
    out.y0 = Math.min(out.y0, box.y0);
    out.x1 = Math.max(out.x1, box.x1);
    out.y1 = Math.max(out.y1, box.y1);
  };
  const points = (list: readonly Pt[]): void => {
    if (list.length > 0) add(boundsOf(list.map((point) => onPaper(look, point))));
  };
  for (const item of items) {
    if (item.kind === "path") {
      points(item.points);
      item.bulges?.forEach((bulge, i) => {
        if (bulge === 0) return;
        const [a, b] = [item.points[i]!, item.points[(i + 1) % item.points.length]!];
        points([[(a[0] + b[0]) / 2 + ((b[1] - a[1]) * bulge) / 2, (a[1] + b[1]) / 2 - ((b[0] - a[0]) * bulge) / 2]]);
      });
    } else if (item.kind === "region") for (const ring of item.rings) points(ring);
    else if (item.kind === "text") add(textBox(look, item));
    else {
      const [x, y] = onPaper(look, item.at);
      const half = item.sizeMm / 2;
      add({ x0: x - half, y0: y - half, x1: x + half + (item.number === undefined ? 0 : 5), y1: y + half });
    }
  }
  return out.x0 === Infinity ? { x0: 0, y0: 0, x1: 0, y1: 0 } : out;
}
