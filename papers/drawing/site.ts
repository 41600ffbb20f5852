import { degreesOf } from "../../core/geometry/direction.ts";
import type { SideKind, Vertex } from "../../core/job/job.ts";
import type { PlanRecord } from "../../core/plan/record.ts";
import { GREY, line, MEDIUM, mark, polygon, polyline, stroke, THICK, THIN, text } from "../ink.ts";
import type { Fill, Item, Layer, Pt } from "../sheet.ts";
import { shorten } from "../text.ts";
import { grown, type Look, occupyLine, onPaper, placeFirst, type Tongue, takePlace } from "./look.ts";
import { between, boundsOf, distance, edgePoints, moved, ringPoints, unit } from "./plane.ts";

/** Width of the band that tells what stands along a side, paper mm. */
export const BAND_MM = 2.6;

/** What stands there before a board is laid: outline, sides, cut-outs. Shared by every drawing. */
export function drawSite(record: PlanRecord, look: Look): Item[] {
  const { survey } = record;
  const items: Item[] = [];
  for (let i = 0; i < survey.outline.length; i++) drawSide(record, i, look, items);
  items.push(ringItem("outline", survey.outline, "thick"));
  for (const cutout of survey.cutouts) {
    const { height } = cutout;
    const fill: Fill | null = height === "tall" ? { hatchDeg: 45, spacingMm: 0.9, tone: "ink" } : { colour: "#ffffff" };
    items.push({
      kind: "path",
      layer: "cutouts",
      points: cutout.ring.map(([x, y]): Pt => [x, y]),
      closed: true,
      bulges: cutout.ring.map((vertex) => vertex[2]),
      stroke: height === "tall" ? MEDIUM : stroke("medium", height === "removable" ? "dash" : "solid"),
      fill: { colour: "#ffffff" },
    });
    if (height === "tall") items.push(polygon("cutouts", ringPoints(cutout.ring, 0.5), null, fill));
  }
  return items;
}

/** Keeps figures off the outline, the bands and what stands in the way; called first of all. */
export function keepOffSides(record: PlanRecord, look: Look): void {
  const { outline, sides } = record.survey;
  sides.forEach((side, i) => {
    const points = edgePoints(outline, i, 0.05 * look.scale);
    const wide = HATCH[side.kind] || side.kind === "door" ? BAND_MM : 0;
    for (let k = 1; k < points.length; k++) {
      const away = outward([points[k - 1]!, points[k]!]);
      const by = (wide / 2) * look.scale;
      occupyLine(look, moved(points[k - 1]!, away, by), moved(points[k]!, away, by), wide / 2 + 0.15, true);
    }
  });
  for (const cutout of record.survey.cutouts) keepOff(look, ringPoints(cutout.ring));
}

/** Names of cut-outs beside them, where there is room. Called when the figures that matter more have their places. */
export function nameCutouts(record: PlanRecord, look: Look): Item[] {
  const items: Item[] = [];
  for (const cutout of record.survey.cutouts)
    items.push(...named(look, "cutouts", cutout.name, ringPoints(cutout.ring)));
  return items;
}

/** A name near a ring, with a thin leader. */
export function named(look: Look, layer: Layer, name: string, ring: readonly Pt[]): Item[] {
  const items: Item[] = [];
  const corners = boundsOf(ring.map((point) => onPaper(look, point)));
  const words = shorten(name, 32, 2.5);
  const [cx, cy] = [(corners.x0 + corners.x1) / 2, (corners.y0 + corners.y1) / 2];
  for (const [x, y, align] of [
    [corners.x1 + 1.2, cy - 1.25, "left"],
    [corners.x0 - 1.2, cy - 1.25, "right"],
    [cx, corners.y1 + 1.2, "centre"],
    [cx, corners.y0 - 3.7, "centre"],
    [corners.x1 + 3, corners.y1 + 3, "left"],
    [corners.x1 + 3, corners.y0 - 5.5, "left"],
    [corners.x0 - 3, corners.y1 + 3, "right"],
    [corners.x1 + 8, corners.y1 + 8, "left"],
    [corners.x0 - 8, corners.y0 - 10, "right"],
  ] as const) {
    const label = onSite(look, [x, y]);
    const item = text(label, words, { layer, align, turnDeg: -look.turnDeg });
    if (item.kind !== "text") continue;
    if (!placeFirst(look, items, [{ ...item, ground: true }])) continue;
    const away = Math.abs(x - cx) > (corners.x1 - corners.x0) / 2 + 2 && Math.abs(y - cy) > 2.5;
    if (away)
      items.push(
        line(
          layer,
          onSite(look, [x, y + 1.25]),
          onSite(look, [x > cx ? corners.x1 : corners.x0, y > cy ? corners.y1 : corners.y0]),
          GREY,
        ),
      );
    break;
  }
  return items;
}

/** Paper mm in the view's axes back to the site. */
export function onSite(look: Look, at: Pt): Pt {
  const back = { ...look, scale: 1 / look.scale, turnDeg: -look.turnDeg };
  return onPaper(back, at);
}

/** A ring with its arcs, as one closed line. */
export function ringItem(
  layer: Layer,
  ring: readonly Vertex[],
  ink: "thick" | "medium" | "thin",
  dash: "solid" | "dash" | "chain" | "dot" = "solid",
  fill: Fill | null = null,
): Item {
  const points = ring.map(([x, y]): Pt => [x, y]);
  const pen = stroke(ink, dash);
  const straight = ring.every((vertex) => vertex[2] === 0);
  const item: Item = { kind: "path", layer, points, closed: true, stroke: pen, fill };
  return straight ? item : { ...item, bulges: ring.map((vertex) => vertex[2]) };
}

/** The band outside a side: hatched wall, closely hatched kerb, door with its leaf line, wavy pool, plain open side. */
function drawSide(record: PlanRecord, index: number, look: Look, items: Item[]): void {
  const { outline, sides } = record.survey;
  const side = sides[index]!;
  const inner = edgePoints(outline, index, 0.05 * look.scale);
  const outer = outside(outline, index, inner, BAND_MM * look.scale);
  const band: Pt[] = [...inner, ...[...outer].reverse()];
  const hatch = HATCH[side.kind];
  if (hatch) items.push(polygon("walls", band, null, hatch));
  if (side.kind === "wall" || side.kind === "kerb") items.push(polyline("walls", outer, THIN));
  if (side.kind === "door") {
    items.push(
      polyline("walls", outer, THICK),
      line("walls", inner[0]!, outer[0]!, MEDIUM),
      line("walls", inner[inner.length - 1]!, outer[outer.length - 1]!, MEDIUM),
    );
  }
  if (side.kind === "pool") items.push(polyline("walls", outer, stroke("medium", "dot")));
  if (side.kind === "outlet") {
    const middle = between(inner[0]!, inner[inner.length - 1]!, 0.5);
    items.push(mark("walls", moved(middle, outward(inner), 2.5 * look.scale), "outlet", 4));
    const [x, y] = onPaper(look, moved(middle, outward(inner), 2.5 * look.scale));
    takePlace(look.room, { x0: x - 2, y0: y - 2, x1: x + 2, y1: y + 2 });
  }
}

const HATCH: Record<SideKind, Fill | null> = {
  wall: { hatchDeg: 45, spacingMm: 1.1, tone: "ink" },
  kerb: { hatchDeg: 135, spacingMm: 0.7, tone: "grey" },
  door: null,
  open: null,
  outlet: null,
  pool: { hatchDeg: 0, spacingMm: 0.8, tone: "ink" },
};

/** Words for sides that are not plain walls ("door, sill 40"), outside the band, where there is room along the side. */
export function nameSides(record: PlanRecord, tongue: Tongue, look: Look): Item[] {
  const items: Item[] = [];
  const { outline, sides } = record.survey;
  sides.forEach((side, i) => {
    if (side.kind === "wall") return;
    const points = edgePoints(outline, i, 0.05 * look.scale);
    const [from, to] = [points[0]!, points[points.length - 1]!];
    const words =
      side.kind === "door" && side.sill !== null
        ? `${tongue.labels.side.door}, ${tongue.labels.sill(tongue.words.write.mm(side.sill))}`
        : tongue.labels.side[side.kind];
    const room = shorten(words, Math.max(distance(from, to) / look.scale, 14), 2.5);
    const turnDeg = degreesOf(to[0] - from[0], to[1] - from[1]);
    const away = outward(points);
    const middle = points.length > 2 ? points[Math.floor(points.length / 2)]! : between(from, to, 0.5);
    const choices: Item[] = [];
    for (const out of [BAND_MM + 1, BAND_MM + 5, BAND_MM + 9, BAND_MM + 14, BAND_MM + 19, BAND_MM + 24, BAND_MM + 30]) {
      for (const share of [0.5, 0.25, 0.75]) {
        const foot = share === 0.5 ? middle : between(from, to, share);
        choices.push(
          text(moved(foot, away, (out + 1.25) * look.scale), room, {
            layer: "walls",
            align: "centre",
            stand: "middle",
            turnDeg,
          }),
        );
      }
    }
    placeFirst(look, items, choices);
  });
  return items;
}

/** Unit vector away from the site (right of the edge; outlines run counter-clockwise). */
export function outward(points: readonly Pt[]): Pt {
  const [x, y] = unit(points[0]!, points[points.length - 1]!);
  return [y, -x];
}

/** The edge moved outward; its ends on the mitre with a neighbour of the same kind of band, square where the mitre would run far. */
function outside(outline: readonly Vertex[], index: number, inner: readonly Pt[], by: number): Pt[] {
  const n = outline.length;
  const before = edgePoints(outline, (index + n - 1) % n, by / 20);
  const after = edgePoints(outline, (index + 1) % n, by / 20);
  const chain: Pt[] = [before[before.length - 2]!, ...inner, after[1]!];
  const out: Pt[] = [];
  for (let i = 1; i + 1 < chain.length; i++) {
    const [ax, ay] = outward([chain[i - 1]!, chain[i]!]);
    const [bx, by2] = outward([chain[i]!, chain[i + 1]!]);
    const dot = 1 + ax * bx + ay * by2;
    const [px, py] = chain[i]!;
    if (dot < 0.3) {
      const [nx, ny] = i === 1 ? [bx, by2] : [ax, ay];
      out.push([px + nx * by, py + ny * by]);
    } else out.push([px + ((ax + bx) * by) / dot, py + ((ay + by2) * by) / dot]);
  }
  return out;
}

/** Keeps other figures off a ring's inside. */
function keepOff(look: Look, ring: readonly Pt[]): void {
  takePlace(look.room, grown(boundsOf(ring.map((point) => onPaper(look, point))), 0.3));
}
