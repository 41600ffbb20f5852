import PDFDocument from "pdfkit";
import type { Paper, Sheet } from "../papers/sheet.ts";
import { printable } from "../papers/text.ts";
import { CAP_HEIGHT } from "../papers/widths.ts";
import type { FontBytes } from "./font/files.ts";
import { unpackFont } from "./font/unpack.ts";
import { type Op, paint } from "./paint.ts";

const POINTS = 72 / 25.4;

/**
 * One paper as PDF: a page a sheet at its true size, vector, the font embedded. Nothing in it depends on the day or
 * the machine: same paper, same bytes. Text the font cannot draw shows a stand-in (papers/text.ts).
 */
export function writePdf(paper: Paper, fonts: FontBytes): Promise<Uint8Array> {
  const still = new Date(0);
  const info = {
    Title: printable(paper.title),
    Producer: "Rowline",
    Creator: "Rowline",
    CreationDate: still,
    ModDate: still,
  };
  const doc = new PDFDocument({
    autoFirstPage: false,
    margin: 0,
    compress: true,
    pdfVersion: "1.7",
    info,
    font: unpackFont(fonts.regular[0]!) as unknown as string,
  });
  const chunks: Uint8Array[] = [];
  const done = new Promise<Uint8Array>((resolve, reject) => {
    doc.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    doc.on("end", () => resolve(joined(chunks)));
    doc.on("error", reject);
  });
  const faces: Record<string, Face[]> = { regular: [], bold: [] };
  for (const weight of ["regular", "bold"] as const) {
    for (const [i, bytes] of fonts[weight].entries()) {
      const name = `${weight}${i}`;
      doc.registerFont(name, unpackFont(bytes) as unknown as ArrayBuffer);
      doc.font(name);
      faces[weight]!.push({ name, glyphs: (doc as unknown as { _font: { font: Glyphs } })._font.font });
    }
  }
  for (const sheet of paper.sheets) page(doc, sheet, faces);
  doc.end();
  return done;
}

type Doc = InstanceType<typeof PDFDocument>;

interface Glyphs {
  hasGlyphForCodePoint(code: number): boolean;
}
interface Face {
  name: string;
  glyphs: Glyphs;
}
type Faces = Record<string, Face[]>;

function page(doc: Doc, sheet: Sheet, faces: Faces): void {
  doc.addPage({ size: [sheet.widthMm * POINTS, sheet.heightMm * POINTS], margin: 0 });
  const y = (mm: number) => (sheet.heightMm - mm) * POINTS;
  for (const op of paint(sheet)) {
    if (op.op === "clip")
      doc
        .save()
        .rect(op.x * POINTS, y(op.y + op.height), op.width * POINTS, op.height * POINTS)
        .clip();
    else if (op.op === "unclip") doc.restore();
    else if (op.op === "path") path(doc, op, y);
    else text(doc, op, y, faces);
  }
}

function path(doc: Doc, op: Op & { op: "path" }, y: (mm: number) => number): void {
  if (op.parts.length === 0) return;
  for (const part of op.parts) {
    part.points.forEach(
      ([px, py], i) => void (i === 0 ? doc.moveTo(px * POINTS, y(py)) : doc.lineTo(px * POINTS, y(py))),
    );
    if (part.closed) doc.closePath();
  }
  if (op.pen) {
    doc.lineWidth(op.pen.widthMm * POINTS).lineJoin("round");
    const [dash, ...rest] = op.pen.dashMm;
    if (dash === undefined) doc.undash();
    else doc.dash([dash, ...rest].map((mm) => mm * POINTS) as unknown as number, {});
  }
  if (op.pen && op.fill) doc.fillAndStroke(op.fill, op.pen.colour, "even-odd");
  else if (op.pen) doc.stroke(op.pen.colour);
  else if (op.fill) doc.fill(op.fill, "even-odd");
}

interface Run {
  font: string;
  text: string;
}

/** Text in runs of one face each, its foot at `at`; the page is turned about that point. */
function text(doc: Doc, op: Op & { op: "text" }, y: (mm: number) => number, faces: Faces): void {
  const size = (op.heightMm * POINTS * 1000) / CAP_HEIGHT;
  const runs = runsOf(printable(op.text), faces[op.bold ? "bold" : "regular"]!);
  if (runs.length === 0) return;
  const needed = runs.length > 1 || op.align !== "left";
  const widths = runs.map((run) => (needed ? doc.font(run.font).fontSize(size).widthOfString(run.text, LOOK) : 0));
  const total = widths.reduce((sum, width) => sum + width, 0);
  const [x0, y0] = [op.at[0] * POINTS, y(op.at[1])];
  let x = x0 - (op.align === "left" ? 0 : op.align === "right" ? total : total / 2);
  if (op.turnDeg !== 0) doc.save().rotate(-op.turnDeg, { origin: [x0, y0] });
  doc.fillColor(op.colour);
  runs.forEach((run, i) => {
    doc.font(run.font).fontSize(size).text(run.text, x, y0, LOOK);
    x += widths[i]!;
  });
  if (op.turnDeg !== 0) doc.restore();
}
/** Figures of equal width, feet on the line, never broken. */
const LOOK = { lineBreak: false, baseline: "alphabetic", features: ["tnum"] } as unknown as PDFKit.Mixins.TextOptions;

/** The first face that has a character draws it; spaces stay with what stands before them. */
function runsOf(words: string, faces: readonly Face[]): Run[] {
  const runs: Run[] = [];
  for (const character of words) {
    const last = runs[runs.length - 1];
    const face = faces.find(({ glyphs }) => glyphs.hasGlyphForCodePoint(character.codePointAt(0)!)) ?? faces[0]!;
    if (last && (last.font === face.name || character === " ")) last.text += character;
    else runs.push({ font: face.name, text: character });
  }
  return runs;
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    out.set(chunk, at);
    at += chunk.length;
  }
  return out;
}
