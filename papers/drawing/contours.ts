import { degreesOf } from "../../core/geometry/direction.ts";
import type { SurfaceRecord } from "../../core/stages/surface/record.ts";
import { polyline, stroke, text } from "../ink.ts";
import type { Item, Pt } from "../sheet.ts";
import { type Look, placeText, type Tongue } from "./look.ts";
import { distance } from "./plane.ts";

/** Steps a contour may have, mm. */
const STEPS = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];

/** The smallest step that keeps contours about 7 mm apart on paper where the base falls as its plane does. */
export function contourStepMm(surface: SurfaceRecord, scale: number): number {
  const slope = Math.max(surface.plane.fall / 100, 0.002);
  return STEPS.find((step) => step / slope / scale >= 7) ?? 1000;
}

/** Lines of equal height with their figure, every `stepMm`, only where triangles stand. Cost: triangles x lines through each. */
export function drawContours(surface: SurfaceRecord, stepMm: number, tongue: Tongue, look: Look): Item[] {
  const items: Item[] = [];
  for (const { level, points } of chains(surface, stepMm)) {
    items.push(polyline("contours", points, stroke("thin", "solid", "accent")));
    for (const share of [0.5, 0.3, 0.7, 0.15, 0.85]) {
      const at = alongChain(points, share);
      if (!at || at.length / look.scale < 12) break;
      const figure = text(at.point, tongue.words.write.mm(level), {
        layer: "contours",
        align: "centre",
        stand: "middle",
        tone: "accent",
        turnDeg: at.deg,
      });
      if (figure.kind === "text" && placeText(look, items, { ...figure, ground: true })) break;
    }
  }
  return items;
}

interface Chain {
  level: number;
  points: Pt[];
}

/** Crossings of a level with the triangles' edges, joined into lines. A corner exactly on a level counts as just above it. */
function chains(surface: SurfaceRecord, stepMm: number): Chain[] {
  const { points, triangles } = surface;
  const byLevel = new Map<number, [string, string][]>();
  const where = new Map<string, Pt>();
  for (let t = 0; t + 2 < triangles.length; t += 3) {
    const corners = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    const heights = corners.map((c) => points[c]![2]);
    const low = Math.ceil(Math.min(...heights) / stepMm);
    const high = Math.floor(Math.max(...heights) / stepMm);
    for (let k = low; k <= high; k++) {
      const level = k * stepMm;
      const cut: string[] = [];
      for (let e = 0; e < 3; e++) {
        const [a, b] = [corners[e]!, corners[(e + 1) % 3]!].sort((p, q) => p - q) as [number, number];
        const [za, zb] = [points[a]![2], points[b]![2]];
        if (za < level === zb < level) continue;
        const key = `${k}:${a}:${b}`;
        const share = (level - za) / (zb - za);
        where.set(key, [
          points[a]![0] + (points[b]![0] - points[a]![0]) * share,
          points[a]![1] + (points[b]![1] - points[a]![1]) * share,
        ]);
        cut.push(key);
      }
      if (cut.length !== 2) continue;
      const list = byLevel.get(level) ?? [];
      list.push([cut[0]!, cut[1]!]);
      byLevel.set(level, list);
    }
  }
  return [...byLevel]
    .sort((a, b) => a[0] - b[0])
    .flatMap(([level, segments]) =>
      join(segments).map((keys) => ({ level, points: keys.map((key) => where.get(key)!) })),
    );
}

function join(segments: readonly (readonly [string, string])[]): string[][] {
  const at = new Map<string, number[]>();
  segments.forEach((segment, i) => {
    for (const key of segment) {
      const list = at.get(key);
      if (list) list.push(i);
      else at.set(key, [i]);
    }
  });
  const used = new Array<boolean>(segments.length).fill(false);
  const walk = (start: string): string[] => {
    const chain = [start];
    for (let here = start; ; ) {
      const next = (at.get(here) ?? []).find((i) => !used[i]);
      if (next === undefined) return chain;
      used[next] = true;
      here = segments[next]![0] === here ? segments[next]![1] : segments[next]![0];
      chain.push(here);
    }
  };
  const out: string[][] = [];
  for (const [key, list] of at) if (list.length === 1 && !used[list[0]!]) out.push(walk(key));
  segments.forEach((segment, i) => {
    if (!used[i]) out.push(walk(segment[0]));
  });
  return out;
}

function alongChain(points: readonly Pt[], part: number): { point: Pt; deg: number; length: number } | null {
  let length = 0;
  for (let i = 1; i < points.length; i++) length += distance(points[i - 1]!, points[i]!);
  let rest = length * part;
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    const step = distance(a, b);
    if (step >= rest && step > 0) {
      const share = rest / step;
      return {
        point: [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share],
        deg: degreesOf(b[0] - a[0], b[1] - a[1]),
        length,
      };
    }
    rest -= step;
  }
  return null;
}
