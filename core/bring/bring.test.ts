import { DxfWriter, point2d, point3d, Units } from "@tarikjabiri/dxf";
import dxfParser, { type IDxf } from "dxf-parser";
import fc from "fast-check";
import { expect, test } from "vitest";
import type { JobDraft } from "../edits/draft.ts";
import { flattenRing } from "../geometry/arc.ts";
import type { Answers, Brought } from "./brought.ts";
import { readBring } from "./read.ts";
import { openAsks, settle, takeInto } from "./settle.ts";

const DxfParser = dxfParser as unknown as new () => { parseSync(text: string): IDxf | null };

function brought(text: string, name: string, answers: Partial<Answers> = {}): Brought {
  const read = readBring(text, name, answers);
  if (!read.ok) throw new Error(`${read.why} ${read.detail}`);
  return read.brought;
}
const why = (text: string, name: string) => {
  const read = readBring(text, name);
  return read.ok ? "read" : read.why;
};

test("a table: heading, names, empty and torn rows counted, both decimal signs", () => {
  const comma = brought(
    "Nr;Rechts;Hoch;H\r\nP1;12,5;7,25;0,104\r\n\r\nP2;13,5;7,25;0,09\r\ntext;only\r\nP3;1;\r\n",
    "a.csv",
  );
  expect(comma.points).toEqual([
    { a: 12.5, b: 7.25, h: 0.104, name: "P1" },
    { a: 13.5, b: 7.25, h: 0.09, name: "P2" },
  ]);
  expect(comma.skipped.map(({ what, count }) => [what, count])).toEqual([
    ["headerRow", 1],
    ["emptyRow", 1],
    ["textRow", 1],
    ["shortRow", 1],
  ]);
  expect(comma.says.decimal).toBe(",");
  expect(comma.asks).toEqual(["axes", "unit"]);
  const blanks = brought("  1 12.5   7.25 0.104\n  2 13.5   7.25 -0.09\n", "a.xyz");
  expect(blanks.points.map(({ name, h }) => [name, h])).toEqual([
    ["1", 0.104],
    ["2", -0.09],
  ]);
  const headed = brought("north,east,z\n7.25,12.5,0.1\n", "a.csv");
  expect([headed.says.axes, headed.points[0]]).toEqual(["xy", { a: 12.5, b: 7.25, h: 0.1, name: "" }]);
});

test("a decimal sign that could be either is asked for, and the answer decides", () => {
  const text = "1.234;5.678;1.001\n2.234;5.678;1.002\n";
  expect(brought(text, "a.csv").asks).toContain("decimal");
  expect(openAsks(brought(text, "a.csv"), { axes: "xy", unit: "m" })).toEqual(["decimal"]);
  expect(brought(text, "a.csv", { decimal: "." }).points[0]).toMatchObject({ a: 1.234, b: 5.678, h: 1.001 });
  expect(brought(text, "a.csv", { decimal: "," }).points[0]).toMatchObject({ a: 1234, b: 5678, h: 1001 });
});

test("DXF written by another program: outline with an arc, points, unit; agrees with another reader", () => {
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  dxf.addLWPolyline(
    [
      { point: point2d(0, 0), bulge: 0.3 },
      { point: point2d(5000, 0) },
      { point: point2d(5000, 3000) },
      { point: point2d(0, 3000) },
    ],
    { flags: 1 },
  );
  dxf.addPoint(100, 200, 15.5);
  dxf.addText(point3d(0, 0), 10, "note");
  const text = dxf.stringify();
  const read = brought(text, "site.dxf");
  const other = new DxfParser().parseSync(text)!;
  const line = other.entities.find(({ type }) => type === "LWPOLYLINE") as unknown as {
    vertices: { x: number; y: number; bulge?: number }[];
  };
  expect(read.lines[0]!.vertices).toEqual(line.vertices.map(({ x, y, bulge }) => [x, y, bulge ?? 0]));
  expect(read.points).toMatchObject([{ a: 100, b: 200, h: 15.5 }]);
  expect(read.says.unit).toBe("mm");
  expect(read.skipped).toContainEqual({ what: "entity", count: 1, names: ["TEXT"] });
});

const dxfOf = (body: string) => `0\nSECTION\n2\nENTITIES\n${body}0\nENDSEC\n0\nEOF\n`;
const lineOf = (a: number, b: number, c: number, d: number) =>
  `0\nLINE\n8\nwall\n10\n${a}\n20\n${b}\n11\n${c}\n21\n${d}\n`;

test("DXF: single lines are joined to a ring, whichever way each was drawn; a loose one is counted", () => {
  const body = lineOf(0, 0, 5, 0) + lineOf(5, 3, 5, 0) + lineOf(5, 3, 0, 3) + lineOf(0, 0, 0, 3) + lineOf(9, 9, 10, 10);
  const read = brought(dxfOf(body), "a.dxf");
  expect(read.lines).toHaveLength(1);
  expect(read.lines[0]!.vertices.map(([a, b]) => [a, b])).toEqual([
    [0, 0],
    [5, 0],
    [5, 3],
    [0, 3],
  ]);
  expect(read.skipped).toEqual([{ what: "openLine", count: 1, names: [] }]);
  expect(read.asks).toEqual(["unit"]);
});

const LAND = `<?xml version="1.0"?><LandXML xmlns="http://www.landxml.org/schema/LandXML-1.2" version="1.2">
<Units><Metric linearUnit="meter"/></Units><CgPoints><CgPoint name="B&amp;1">1000.5 500.25 12.3</CgPoint></CgPoints>
<Surfaces><Surface name="slab"><SourceData><Boundaries><Boundary bndType="outer"><PntList2D>1000 500 1000 505 1003 505 1003 500 1000 500</PntList2D></Boundary></Boundaries></SourceData>
<Definition surfType="TIN"><Pnts><P id="1">1000 500 12.1</P><P id="2">1003 505 12.2</P></Pnts><Faces><F>1 2 1</F></Faces></Definition></Surface></Surfaces><Alignments/></LandXML>`;

test("LandXML: northing first, so that east comes out as x; far coordinates are brought near", () => {
  const read = brought(LAND, "s.xml");
  expect([read.says, read.asks, read.faces]).toEqual([{ axes: "yx", unit: "m", decimal: "." }, [], 1]);
  expect(read.points[0]).toEqual({ a: 1000.5, b: 500.25, h: 12.3, name: "B&1" });
  expect(read.skipped).toEqual([{ what: "element", count: 1, names: ["Alignments"] }]);
  const { points, rings, shift } = settle(read, {})!;
  expect(shift).toEqual([500_000, 1_000_000]);
  expect(points[0]).toEqual({ x: 250, y: 500, z: 12_300, name: "B&1" });
  expect(rings[0]!.vertices).toEqual([
    [0, 0],
    [5000, 0],
    [5000, 3000],
    [0, 3000],
  ]);
});

test("GeoJSON: metres or degrees are asked; a degree of latitude at 50 north is 111.23 km", () => {
  const text = JSON.stringify({
    type: "FeatureCollection",
    features: [
      { type: "Feature", properties: { name: "a" }, geometry: { type: "Point", coordinates: [8, 50, 0.1] } },
      { type: "Feature", properties: null, geometry: { type: "Point", coordinates: [8.0001, 50.0001] } },
      { type: "Feature", properties: null, geometry: { type: "LineString", coordinates: [] } },
      { type: "Feature", properties: null, geometry: null },
    ],
  });
  const read = brought(text, "a.geojson");
  expect(read.asks).toEqual(["unit"]);
  expect(settle(read, {})).toBeNull();
  const [first, second] = settle(read, { unit: "deg" })!.points;
  expect(first).toEqual({ x: 0, y: 0, z: 100, name: "a" });
  // 111 229 m a degree of latitude, 71 696 m of longitude at 50 N on WGS 84: from memory, to a metre
  expect(second!.y / 10).toBeCloseTo(1112.29, 1);
  expect(second!.x / 10).toBeCloseTo(716.96, 1);
  expect(settle(read, { unit: "m" })!.points[0]).toMatchObject({ x: 8000, y: 50_000 });
});

test("changing axes over mirrors the plan, and arcs with it", () => {
  const read = brought(dxfOf("0\nCIRCLE\n10\n2\n20\n7\n40\n1\n"), "a.dxf");
  for (const axes of ["xy", "yx"] as const) {
    const ring = settle(read, { unit: "m", axes })!.rings[0]!.vertices;
    const flat = flattenRing(ring.map(([x, y, bulge = 0]) => [x, y, bulge] as const));
    const area = flat.reduce((sum, [x, y], i) => {
      const [nx, ny] = flat[(i + 1) % flat.length]!;
      return sum + (x * ny - nx * y) / 2;
    }, 0);
    expect(Math.abs(area) / (Math.PI * 1e6)).toBeCloseTo(1, 3);
    expect(Math.min(...flat.map(([x]) => x))).toBeCloseTo(axes === "xy" ? 1000 : 6000, 0);
  }
});

test("taken into a job: levels and outline, walls all round, tapes and marks of the old outline gone", () => {
  const job: JobDraft = {
    format: "rowline/job@1",
    title: "t",
    site: { marks: ["A", "B", "C"] },
    survey: { ties: [["A", "B", 1]] },
    "x-measure": { walk: [], spacing: 500 },
  };
  takeInto(job, settle(brought(LAND, "s.xml"), {})!, { levels: true, ring: 0 });
  expect(job).toEqual({
    format: "rowline/job@1",
    title: "t",
    site: {
      outline: [
        [0, 0],
        [5000, 0],
        [5000, 3000],
        [0, 3000],
      ],
      sides: ["wall", "wall", "wall", "wall"],
    },
    survey: {
      levels: [
        [250, 500, 12_300],
        [0, 0, 12_100],
        [5000, 3000, 12_200],
      ],
    },
    "x-measure": { spacing: 500 },
  });
});

test("what cannot be read is refused with its reason", () => {
  expect(why("", "a.csv")).toBe("empty");
  expect(why("words\nand more words\n", "a.txt")).toBe("noFigures");
  expect(why("AutoCAD Binary DXF\r\n", "a.dxf")).toBe("binary");
  expect(why("0\nSECTION\n2\nENTITIES\n", "a.dxf")).toBe("notDxf");
  expect(why("<a><b></a>", "a.xml")).toBe("notXml");
  expect(why('<!DOCTYPE l [<!ENTITY a "aaaa">]><LandXML>&a;</LandXML>', "a.xml")).toBe("docType");
  expect(why("<LandXML>&a;</LandXML>", "a.xml")).toBe("notXml");
  expect(why("<a>".repeat(1000), "a.xml")).toBe("tooDeep");
  expect(why("<svg></svg>", "a.xml")).toBe("notLandXml");
  expect(why("{", "a.geojson")).toBe("notJson");
  expect(why('{"format":"x"}', "a.json")).toBe("notGeoJson");
  expect(why("ISO-10303-21;", "a.ifc")).toBe("ifc");
  expect(why("x", "a.dwg")).toBe("unknownKind");
  expect(why(`${'{"type":"GeometryCollection","geometries":['.repeat(200)}${"]}".repeat(200)}`, "a.json")).toBe(
    "tooDeep",
  );
  expect(why("1 2 3\n".repeat(200_001), "a.xyz")).toBe("tooMany");
});

test("torn and mixed-up texts never throw, and every point read is a figure", () => {
  const scraps = [
    "0\n",
    "SECTION\n",
    "<P>",
    "</P>",
    "1 2 3\n",
    "1,5;2,5\n",
    '{"type":"Point","coordinates":',
    "[1,2]",
    "}",
    "<!--",
    "-->",
    "10\n",
    "LINE\n",
    "EOF\n",
    "&",
    '"',
    "<LandXML>",
    "\u0000",
    "e9",
    "-",
    "1e999 2 3\n",
    "__proto__",
  ];
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom(...scraps), { maxLength: 30 }),
      fc.constantFrom("a.csv", "a.xyz", "a.dxf", "a.xml", "a.json", "a"),
      (parts, name) => {
        const read = readBring(parts.join(""), name);
        if (!read.ok) return;
        for (const { a, b, h } of read.brought.points) expect([a, b, h ?? 0].every(Number.isFinite)).toBe(true);
        settle(read.brought, { axes: "xy", unit: "m", decimal: "." });
      },
    ),
    { seed: 5, numRuns: 3000 },
  );
});
