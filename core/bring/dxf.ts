/** DXF written as text (ASCII), any version: points and closed lines of the model space. Group codes after the published DXF reference. */
import {
  BRING_LIMITS,
  type BringRead,
  type BroughtLine,
  type BroughtPoint,
  type FileUnit,
  refuse,
  skipCounter,
} from "./brought.ts";
import { joinLines } from "./join.ts";

interface Pair {
  code: number;
  value: string;
}
type Entity = { kind: string; pairs: Pair[]; vertices: Pair[][] };
type Skip = ReturnType<typeof skipCounter>["skip"];

const QUARTER_BULGE = 0.41421356237309503;
/** $INSUNITS; others are asked. */
const UNITS: Record<string, FileUnit> = { "1": "in", "2": "ft", "4": "mm", "5": "cm", "6": "m", "21": "ftUs" };

export function readDxf(text: string): BringRead {
  if (text.startsWith("AutoCAD Binary DXF")) return refuse("binary");
  const pairs = pairsOf(text);
  if (typeof pairs === "string") return refuse("notDxf", pairs);
  const { skip, list } = skipCounter();
  const points: BroughtPoint[] = [];
  const lines: BroughtLine[] = [];
  for (const entity of entitiesOf(pairs, skip)) {
    takeEntity(entity, points, lines, skip);
    if (points.length > BRING_LIMITS.points || lines.length > BRING_LIMITS.lines)
      return refuse("tooMany", String(points.length > BRING_LIMITS.points ? BRING_LIMITS.points : BRING_LIMITS.lines));
  }
  const { closed, open } = joinLines(lines);
  if (open > 0) skip("openLine", undefined, open);
  const unit = UNITS[headerValue(pairs, "$INSUNITS") ?? ""] ?? null;
  return {
    ok: true,
    brought: {
      format: "dxf",
      points,
      lines: closed,
      faces: 0,
      skipped: list(),
      says: { axes: "xy", unit, decimal: "." },
      asks: unit ? [] : ["unit"],
    },
  };
}

function pairsOf(text: string): Pair[] | string {
  const rows = text.split(/\r\n|\n|\r/);
  const pairs: Pair[] = [];
  for (let i = 0; i + 1 < rows.length; i += 2) {
    const code = rows[i]!.trim();
    if (!/^-?\d{1,4}$/.test(code)) return `row ${i + 1} should be a group code`;
    pairs.push({ code: Number(code), value: rows[i + 1]!.trim() });
    if (Number(code) === 0 && rows[i + 1]!.trim() === "EOF") return pairs;
  }
  return pairs.length === 0 ? "it is empty" : "its end (EOF) is missing";
}

function headerValue(pairs: readonly Pair[], name: string): string | null {
  const at = pairs.findIndex(({ code, value }) => code === 9 && value === name);
  return at < 0 ? null : (pairs[at + 1]?.value ?? null);
}

/** Entities of the ENTITIES section; a polyline of the old kind gets its vertices. */
function entitiesOf(pairs: readonly Pair[], skip: Skip): Entity[] {
  const out: Entity[] = [];
  let section = "";
  let polyline: Entity | null = null;
  for (let i = 0; i < pairs.length; i++) {
    const { code, value } = pairs[i]!;
    if (code !== 0) continue;
    if (value === "SECTION") section = pairs[i + 1]?.value ?? "";
    if (value === "ENDSEC") section = "";
    let end = i + 1;
    while (end < pairs.length && pairs[end]!.code !== 0) end++;
    const own = pairs.slice(i + 1, end);
    if (section === "BLOCKS" && value === "BLOCK") skip("block", own.find((pair) => pair.code === 2)?.value ?? "");
    if (section !== "ENTITIES" || value === "SECTION" || value === "ENDSEC") continue;
    if (value === "VERTEX" && polyline) polyline.vertices.push(own);
    else if (value === "SEQEND") polyline = null;
    else {
      const entity: Entity = { kind: value, pairs: own, vertices: [] };
      out.push(entity);
      polyline = value === "POLYLINE" ? entity : null;
    }
  }
  return out;
}

function takeEntity(entity: Entity, points: BroughtPoint[], lines: BroughtLine[], skip: Skip): void {
  const { kind, pairs } = entity;
  const get = (code: number): number => Number(pairs.find((pair) => pair.code === code)?.value ?? 0);
  const name = pairs.find((pair) => pair.code === 8)?.value.slice(0, 60) ?? "";
  if (get(67) === 1) {
    skip("entity", `${kind} on a paper`);
    return;
  }
  if (get(230) < 0) {
    skip("entity", `${kind} seen from below`);
    return;
  }
  const flags = get(70);
  let taken: BroughtLine | null = null;
  if (kind === "POINT") {
    if (finite(get(10), get(20), get(30))) points.push({ a: get(10), b: get(20), h: get(30), name });
    else skip("doubtfulFigure", kind);
    return;
  }
  if (kind === "LINE")
    taken = {
      vertices: [
        [get(10), get(20), 0],
        [get(11), get(21), 0],
      ],
      closed: false,
      name,
    };
  else if (kind === "LWPOLYLINE") taken = { vertices: lightVertices(pairs), closed: (flags & 1) === 1, name };
  else if (kind === "POLYLINE" && (flags & (16 | 64)) === 0)
    taken = {
      // 16: control point of a spline's frame, not on the line
      vertices: entity.vertices
        .filter((own) => (Number(own.find((pair) => pair.code === 70)?.value ?? 0) & 16) === 0)
        .map((own) => {
          const at = (code: number) => Number(own.find((pair) => pair.code === code)?.value ?? 0);
          return [at(10), at(20), at(42)];
        }),
      closed: (flags & 1) === 1,
      name,
    };
  else if (kind === "CIRCLE" && get(40) > 0) {
    const [x, y, r] = [get(10), get(20), get(40)];
    taken = {
      vertices: [
        [x + r, y, QUARTER_BULGE],
        [x, y + r, QUARTER_BULGE],
        [x - r, y, QUARTER_BULGE],
        [x, y - r, QUARTER_BULGE],
      ],
      closed: true,
      name,
    };
  } else {
    skip(kind === "INSERT" ? "block" : "entity", kind);
    return;
  }
  if (!taken.vertices.every((vertex) => finite(...vertex))) {
    skip("doubtfulFigure", kind);
    return;
  }
  if (taken.vertices.length < 2) {
    skip("shortLine", kind);
    return;
  }
  lines.push(taken);
}

function lightVertices(pairs: readonly Pair[]): [number, number, number][] {
  const out: [number, number, number][] = [];
  for (const { code, value } of pairs) {
    const last = out[out.length - 1];
    if (code === 10) out.push([Number(value), 0, 0]);
    else if (code === 20 && last) last[1] = Number(value);
    else if (code === 42 && last) last[2] = Number(value);
  }
  return out;
}

function finite(...values: number[]): boolean {
  return values.every((value) => Number.isFinite(value) && Math.abs(value) < 1e12);
}
