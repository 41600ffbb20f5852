/** LandXML 1.2: coordinate points, points of surfaces, boundaries. Its order is northing, easting, height. */
import {
  BRING_LIMITS,
  type BringRead,
  type BroughtLine,
  type BroughtPoint,
  type FileUnit,
  refuse,
  skipCounter,
} from "./brought.ts";
import { readXml } from "./xml.ts";

const UNITS: Record<string, FileUnit> = {
  meter: "m",
  millimeter: "mm",
  centimeter: "cm",
  foot: "ft",
  USSurveyFoot: "ftUs",
  inch: "in",
};
/** Elements whose text is coordinates. */
const COORDINATES = new Set(["P", "CgPoint", "PntList2D", "PntList3D"]);
/** Elements that only hold others, or say what needs no taking. */
const HOLDERS = new Set(
  "LandXML Units Metric Imperial Project Application Author CoordinateSystem CgPoints Surfaces Surface Definition Pnts Faces F SourceData DataPoints Boundaries Boundary Feature Property".split(
    " ",
  ),
);

export function readLandXml(text: string): BringRead {
  const points: BroughtPoint[] = [];
  const lines: BroughtLine[] = [];
  const { skip, list } = skipCounter();
  let unit: FileUnit | null = null;
  let faces = 0;
  let root: string | null = null;
  let surface = "";
  let run = "";
  let corners = 0;
  const stack: { name: string; attributes: Record<string, string> }[] = [];
  const fault = readXml(text, {
    open(name, attributes) {
      root ??= name;
      stack.push({ name, attributes });
      run = "";
      if (name === "Surface") surface = attributes.name ?? "";
      if (name === "Metric" || name === "Imperial") unit = UNITS[attributes.linearUnit ?? ""] ?? null;
      if (name === "F") faces++;
      if (!HOLDERS.has(name) && !COORDINATES.has(name)) skip("element", name);
    },
    text(part) {
      if (COORDINATES.has(stack[stack.length - 1]?.name ?? "")) run += part;
    },
    close(name) {
      const { attributes } = stack.pop()!;
      if (!COORDINATES.has(name) || points.length > BRING_LIMITS.points || corners > BRING_LIMITS.vertices) return;
      const parent = stack[stack.length - 1]?.name ?? "";
      if (run.trim() === "") {
        skip("element", `${name} without figures`);
        return;
      }
      const figures = run.trim().split(/\s+/).map(Number);
      if (figures.some((value) => !Number.isFinite(value) || Math.abs(value) > 1e12)) {
        skip("doubtfulFigure", `${name} ${run.slice(0, 30)}`);
        return;
      }
      if (name === "P" || name === "CgPoint") {
        const [a, b, h] = figures;
        if (b === undefined) {
          skip("shortRow", name);
          return;
        }
        points.push({ a: a!, b, h: h ?? null, name: (attributes.name ?? attributes.id ?? "").slice(0, 60) });
        return;
      }
      const size = name === "PntList3D" ? 3 : 2;
      if (figures.length % size !== 0) {
        skip("doubtfulFigure", name);
        return;
      }
      const all = Array.from({ length: figures.length / size }, (_, i) => figures.slice(i * size, i * size + size));
      corners += all.length;
      if (parent === "Boundary")
        lines.push({ vertices: all.map(([a, b]) => [a!, b!, 0]), closed: true, name: surface || parent });
      else if (parent === "DataPoints")
        for (const [a, b, h] of all) points.push({ a: a!, b: b!, h: h ?? null, name: "" });
      else skip("element", `${name} in ${parent}`);
    },
  });
  if (fault) return refuse(fault.why, fault.detail);
  if (root !== "LandXML") return refuse("notLandXml", root ?? "");
  if (points.length > BRING_LIMITS.points || corners > BRING_LIMITS.vertices)
    return refuse("tooMany", String(BRING_LIMITS.points));
  return {
    ok: true,
    brought: {
      format: "landxml",
      points,
      lines: lines.map(withoutEcho),
      faces,
      skipped: list(),
      says: { axes: "yx", unit, decimal: "." },
      asks: unit ? [] : ["unit"],
    },
  };
}

/** A boundary that repeats its first point at its end. */
function withoutEcho(line: BroughtLine): BroughtLine {
  const [first, last] = [line.vertices[0], line.vertices[line.vertices.length - 1]];
  const echoes = line.vertices.length > 3 && first![0] === last![0] && first![1] === last![1];
  return echoes ? { ...line, vertices: line.vertices.slice(0, -1) } : line;
}
