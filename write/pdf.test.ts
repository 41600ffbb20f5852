import { inflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { readFonts } from "../apps/cli/fonts.ts";
import { box, text } from "../papers/ink.ts";
import type { Paper } from "../papers/sheet.ts";
import { HOSTILE, samplePapers } from "../papers/testing/papers.ts";
import { writePdf } from "./pdf.ts";

const fonts = readFonts();

/** All streams of a PDF, unpacked where they are packed. */
function streams(bytes: Uint8Array): string[] {
  const raw = Buffer.from(bytes);
  const latin = raw.toString("latin1");
  const out: string[] = [];
  for (const match of latin.matchAll(/<<[^>]*?\/Length (\d+)[^>]*?>>\s*stream\n/g)) {
    const from = match.index + match[0].length;
    const part = raw.subarray(from, from + Number(match[1]));
    out.push((/FlateDecode/.test(match[0]) ? inflateSync(part) : part).toString("latin1"));
  }
  return out;
}

/** Boxes drawn by a page's content, in millimetres of the page as it is printed. */
function boxes(content: string): { x: number; y: number; width: number; height: number }[] {
  const mm = 25.4 / 72;
  const scale = /^1 0 0 -1 0 ([\d.]+) cm/m.exec(content);
  expect(scale).not.toBeNull();
  const out: { x: number; y: number; width: number; height: number }[] = [];
  for (const [, a, b, c] of content.matchAll(
    /([-\d.]+ [-\d.]+) m\n([-\d.]+ [-\d.]+) l\n([-\d.]+ [-\d.]+) l\n[-\d.]+ [-\d.]+ l\nh/g,
  )) {
    const [p, q, r] = [a!, b!, c!].map((pair) => pair.split(" ").map(Number)) as [number[], number[], number[]];
    out.push({ x: p[0]! * mm, y: p[1]! * mm, width: (q[0]! - p[0]!) * mm, height: Math.abs(r[1]! - q[1]!) * mm });
  }
  return out;
}

describe("writePdf", () => {
  it("writes the same bytes in two runs", async () => {
    const { setout } = samplePapers();
    const [a, b] = [await writePdf(setout, fonts), await writePdf(samplePapers().setout, fonts)];
    expect(Buffer.compare(Buffer.from(a), Buffer.from(b))).toBe(0);
    expect(Buffer.from(a).toString("latin1")).toContain("D:19700101");
  });

  it("draws the check bar 100 mm long on sheets of their true size", async () => {
    const { base } = samplePapers();
    const bytes = await writePdf(base, fonts);
    const media = [
      ...Buffer.from(bytes)
        .toString("latin1")
        .matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g),
    ].map((match) => [Number(match[1]) * (25.4 / 72), Number(match[2]) * (25.4 / 72)]);
    expect(media.length).toBe(base.sheets.length);
    expect(media[0]![0]).toBeCloseTo(420, 3);
    expect(media[0]![1]).toBeCloseTo(297, 3);
    const bars = streams(bytes)
      .filter((content) => content.includes(" cm"))
      .flatMap(boxes)
      .filter((one) => Math.abs(one.height - 1.6) < 1e-3 && one.width > 50);
    expect(bars.length).toBe(base.sheets.length);
    for (const bar of bars) expect(bar.width).toBeCloseTo(100, 3);
  });

  it("embeds the font and stays vector", async () => {
    const bytes = await writePdf(samplePapers().fixing, fonts);
    const latin = Buffer.from(bytes).toString("latin1");
    expect(latin).toContain("/FontFile2");
    expect(latin).not.toContain("/Subtype /Image");
    expect(latin.match(/\/BaseFont \/\w+\+AtkinsonHyperlegibleNext/g)!.length).toBeGreaterThanOrEqual(2);
  });

  it("prints hostile text without breaking", async () => {
    const items = HOSTILE.map((words, i) => text([20, 20 + i * 10], words, { turnDeg: i * 30 }));
    const paper: Paper = {
      name: "x",
      title: HOSTILE.join(" "),
      dxf: false,
      sheets: [
        { name: "x", title: "x", widthMm: 210, heightMm: 297, views: [], items: [...items, box("text", 1, 1, 10, 10)] },
      ],
    };
    const bytes = await writePdf(paper, fonts);
    const latin = Buffer.from(bytes).toString("latin1");
    expect(latin.startsWith("%PDF-1.7")).toBe(true);
    expect(latin.trimEnd().endsWith("%%EOF")).toBe(true);
    const at = Number(/startxref\n(\d+)/.exec(latin)![1]);
    expect(latin.slice(at, at + 4)).toBe("xref");
  });
});
