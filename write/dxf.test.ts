import dxfParser, { type IDxf, type ILwpolylineEntity, type ITextEntity } from "dxf-parser";
import { describe, expect, it } from "vitest";
import { text } from "../papers/ink.ts";
import type { Item, Paper } from "../papers/sheet.ts";
import { HOSTILE, SHAPES, samplePapers } from "../papers/testing/papers.ts";
import { dxfText, writeDxf } from "./dxf.ts";

const LAYERS = [
  "outline",
  "walls",
  "field",
  "cutouts",
  "no-drill",
  "base-joints",
  "slab",
  "boards",
  "grain",
  "ripped",
  "cut-ends",
  "clips",
  "screws",
  "trims",
  "datum",
  "dimensions",
  "levels",
  "deviation",
  "contours",
  "falls",
  "puddles",
  "straightedge",
  "stakes",
  "findings",
  "text",
  "frame",
];

/** The package is CommonJS: what its types call a module is the class itself. */
const DxfParser = dxfParser as unknown as new () => { parseSync(text: string): IDxf | null };

function read(paper: Paper): IDxf {
  const parsed = new DxfParser().parseSync(writeDxf(paper));
  expect(parsed).not.toBeNull();
  return parsed!;
}

/** The distinct items a paper's finest views hold. */
function distinct(paper: Paper): Item[] {
  const views = paper.sheets.flatMap((sheet) => sheet.views);
  const scale = Math.min(...views.map((view) => view.scale));
  const seen = new Map<string, Item>();
  for (const item of views.filter((view) => view.scale === scale).flatMap((view) => view.items))
    seen.set(JSON.stringify(item), item);
  return [...seen.values()];
}

describe("writeDxf", () => {
  it("declares millimetres and plain layers", () => {
    for (const paper of Object.values(samplePapers())) {
      const dxf = read(paper);
      expect(dxf.header.$INSUNITS).toBe(4);
      const used = new Set(dxf.entities.map((entity) => entity.layer));
      for (const layer of used) expect(LAYERS).toContain(layer);
      for (const layer of used) expect(Object.keys(dxf.tables.layer.layers)).toContain(layer);
    }
  });

  it("holds every board once, closed, 1:1 in site millimetres", () => {
    const { setout } = samplePapers();
    const boards = read(setout).entities.filter(
      (entity): entity is ILwpolylineEntity => entity.type === "LWPOLYLINE" && entity.layer === "boards",
    );
    const wanted = distinct(setout).filter((item) => item.layer === "boards");
    expect(boards.length).toBe(wanted.length);
    expect(boards.length).toBe(123);
    for (const board of boards) expect(board.shape).toBe(true);
    wanted.forEach((item, i) => {
      if (item.kind !== "path") return;
      expect(boards[i]!.vertices.map((vertex) => [vertex.x, vertex.y])).toEqual(item.points.map((point) => [...point]));
    });
  });

  it("keeps bulges: the slanting terrace's arc and the round post", () => {
    const { setout } = samplePapers(SHAPES.slanting);
    const lines = read(setout).entities.filter((entity): entity is ILwpolylineEntity => entity.type === "LWPOLYLINE");
    const outline = lines.filter((entity) => entity.layer === "outline");
    expect(outline.length).toBe(1);
    expect(outline[0]!.vertices.map((vertex) => vertex.bulge ?? 0)).toEqual([0, 0.2, 0, 0]);
    const post = lines.filter((entity) => entity.layer === "cutouts" && entity.vertices.length === 2);
    expect(post[0]!.vertices.map((vertex) => vertex.bulge)).toEqual([1, 1]);
  });

  it("writes every text and symbol, sized by the scale", () => {
    const { fixing } = samplePapers();
    const dxf = read(fixing);
    const items = distinct(fixing);
    const texts = dxf.entities.filter((entity): entity is ITextEntity => entity.type === "TEXT");
    const numbers = items.filter((item) => item.kind === "mark" && item.number !== undefined).length;
    expect(texts.length).toBe(
      items.filter((item) => item.kind === "text").length + numbers + (fixing.notes?.length ?? 0),
    );
    expect(texts.filter((one) => one.layer === "dimensions").every((one) => one.textHeight === 2.5 * 20)).toBe(true);
    const clips = dxf.entities.filter((entity) => entity.layer === "clips").length;
    expect(clips).toBeGreaterThanOrEqual(431);
  });

  it("is the same text each time, without dates or exponents", () => {
    const [a, b] = [writeDxf(samplePapers().base), writeDxf(samplePapers().base)];
    expect(a).toBe(b);
    expect(a).not.toMatch(/NaN|Infinity|\de[-+]\d/);
  });

  it.each(HOSTILE)("holds %j as one line of plain text", (words) => {
    const view = {
      x: 0,
      y: 0,
      width: 100,
      height: 100,
      scale: 10,
      at: [0, 0] as const,
      turnDeg: 0,
      items: [text([10, 10], words)],
    };
    const paper: Paper = {
      name: "x",
      title: words,
      dxf: true,
      notes: [words],
      sheets: [{ name: "x", title: words, widthMm: 100, heightMm: 100, views: [view], items: [] }],
    };
    const texts = read(paper).entities.filter((entity): entity is ITextEntity => entity.type === "TEXT");
    expect(texts.length).toBe(2);
    expect(dxfText(words)).toMatch(/^[\x20-\x7e]*$/);
    // Nothing left that begins a control sequence of its own: \ only as \U+XXXX, ^ never, %% only as %%%.
    expect(dxfText(words).replace(/\\U\+[0-9A-F]{4}/g, "")).not.toMatch(/[\\^]/);
    expect(dxfText(words).replace(/%%%/g, "")).not.toContain("%%");
    expect(writeDxf(paper).split(/\r?\n/).length % 2).toBe(
      writeDxf({ ...paper, notes: ["plain"] }).split(/\r?\n/).length % 2,
    );
  });
});
