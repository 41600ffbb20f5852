/** GeoJSON (RFC 7946): points and polygons. Whether figures are degrees or a national grid's metres is asked. */
import { BRING_LIMITS, type BringRead, type BroughtLine, type BroughtPoint, refuse, skipCounter } from "./brought.ts";

type Place = number[];

export function readGeoJson(text: string): BringRead {
  let root: unknown;
  try {
    root = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
  } catch {
    return refuse("notJson");
  }
  const points: BroughtPoint[] = [];
  const lines: BroughtLine[] = [];
  const { skip, list } = skipCounter();
  const kinds = new Set([
    "FeatureCollection",
    "Feature",
    "GeometryCollection",
    "Point",
    "MultiPoint",
    "Polygon",
    "MultiPolygon",
    "LineString",
    "MultiLineString",
  ]);
  if (!isGroup(root) || !kinds.has(String(root.type)))
    return refuse("notGeoJson", isGroup(root) ? String(root.type ?? "no type") : "a list or a figure");
  let corners = 0;
  // a stack in place of calls into one another: nesting as deep as a text can be does no harm
  const waiting: { value: unknown; name: string; depth: number }[] = [{ value: root, name: "", depth: 0 }];
  while (waiting.length > 0) {
    const { value, name, depth } = waiting.pop()!;
    if (depth > BRING_LIMITS.depth) return refuse("tooDeep");
    if (!isGroup(value)) {
      skip("geometry", "null");
      continue;
    }
    const push = (list: unknown, under: string) => {
      if (Array.isArray(list))
        for (let i = list.length - 1; i >= 0; i--) waiting.push({ value: list[i], name: under, depth: depth + 1 });
    };
    if (value.type === "FeatureCollection") push(value.features, name);
    else if (value.type === "GeometryCollection") push(value.geometries, name);
    else if (value.type === "Feature") waiting.push({ value: value.geometry, name: nameOf(value), depth: depth + 1 });
    else corners += take(value, name);
    if (
      points.length > BRING_LIMITS.points ||
      corners > BRING_LIMITS.vertices ||
      waiting.length > BRING_LIMITS.vertices
    )
      return refuse("tooMany", String(BRING_LIMITS.points));
  }
  return {
    ok: true,
    brought: {
      format: "geojson",
      points,
      lines,
      faces: 0,
      skipped: list(),
      says: { axes: "xy", unit: null, decimal: "." },
      asks: ["unit"],
    },
  };

  function take(geometry: Record<string, unknown>, name: string): number {
    const { type, coordinates } = geometry;
    const single = type === "Point" || type === "Polygon";
    if (!Array.isArray(coordinates)) skip("geometry", String(type ?? "no type"));
    else if (type === "Point" || type === "MultiPoint")
      for (const place of single ? [coordinates] : coordinates) {
        if (isPlace(place)) points.push({ a: place[0]!, b: place[1]!, h: place[2] ?? null, name });
        else skip("doubtfulFigure", String(type));
      }
    else if (type === "Polygon" || type === "MultiPolygon") {
      let count = 0;
      for (const polygon of single ? [coordinates] : coordinates) {
        const [outer, ...holes] = Array.isArray(polygon) ? (polygon as unknown[]) : [];
        if (holes.length > 0) skip("geometry", "holes of a polygon", holes.length);
        if (!Array.isArray(outer) || !outer.every(isPlace)) skip("doubtfulFigure", String(type));
        else {
          const ring = outer as Place[];
          count += ring.length;
          const [first, last] = [ring[0], ring[ring.length - 1]];
          const open =
            first && last && ring.length > 1 && first[0] === last[0] && first[1] === last[1] ? ring.slice(0, -1) : ring;
          lines.push({ vertices: open.map(([a, b]) => [a!, b!, 0]), closed: true, name });
        }
      }
      return count;
    } else if (type === "LineString" || type === "MultiLineString") skip("openLine");
    else skip("geometry", String(type).slice(0, 30));
    return 0;
  }
}

function nameOf(feature: Record<string, unknown>): string {
  const name = isGroup(feature.properties) ? (feature.properties.name ?? feature.id) : feature.id;
  return typeof name === "string" || typeof name === "number" ? String(name).slice(0, 60) : "";
}

function isPlace(value: unknown): value is Place {
  return (
    Array.isArray(value) &&
    value.length >= 2 &&
    value.slice(0, 3).every((one) => typeof one === "number" && Number.isFinite(one) && Math.abs(one) < 1e12)
  );
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
