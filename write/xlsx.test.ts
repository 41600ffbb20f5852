import { describe, expect, it } from "vitest";
import { type Grid, numberColumn, textColumn } from "../papers/grid.ts";
import { writeXlsx } from "./xlsx.ts";
import { crc32 } from "./zip.ts";

/** Reads a stored archive by its central directory, as a reader of other make would, and checks sizes and sums. */
function unzip(bytes: Uint8Array): Map<string, string> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = bytes.length - 22;
  expect(view.getUint32(end, true)).toBe(0x06054b50);
  let at = view.getUint32(end + 16, true);
  const out = new Map<string, string>();
  for (let i = 0; i < view.getUint16(end + 10, true); i++) {
    expect(view.getUint32(at, true)).toBe(0x02014b50);
    const [sum, size, nameLength] = [
      view.getUint32(at + 16, true),
      view.getUint32(at + 24, true),
      view.getUint16(at + 28, true),
    ];
    const local = view.getUint32(at + 42, true);
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength));
    expect(view.getUint32(local, true)).toBe(0x04034b50);
    const start = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
    const content = bytes.subarray(start, start + size);
    expect(crc32(content)).toBe(sum);
    out.set(name, new TextDecoder("utf-8", { fatal: true }).decode(content));
    at += 46 + nameLength;
  }
  expect(at).toBe(end);
  return out;
}

/** Every tag closed in order, no stray < or &: well-formed as far as these files go. */
function wellFormed(xml: string): void {
  const open: string[] = [];
  const rest = xml
    .replace(/^<\?xml[^>]*\?>\n/, "")
    .replace(/<(\/?)([\w:]+)((?:\s+[\w:]+="[^"<]*")*)\s*(\/?)>/g, (_, close, name, __, self) => {
      if (close) expect(open.pop()).toBe(name);
      else if (!self) open.push(name);
      return "";
    });
  expect(open).toEqual([]);
  expect(rest.replace(/&(amp|lt|gt|quot|#13);/g, "")).not.toMatch(/[<>&]/);
}

const hostile = ["=1+1", "+1", "-1", "@a", "<b>&\"'", "a\u0001b\0c", "\ud800", "line\nfeed\r", "]]>", "中庭 \u{1f600}"];
const grid = (title: string): Grid => ({
  name: "t",
  title,
  columns: [textColumn("Te<xt"), numberColumn("Number", 2)],
  rows: hostile.map((text, i) => [text, i === 3 ? null : i - 1.5]),
});

describe("xlsx", () => {
  it("opens: every part is there, sums hold, every part is well-formed", () => {
    const files = unzip(
      writeXlsx([grid("One"), grid("One"), grid("[a]*?/\\:' with a very long name indeed, longer than allowed")]),
    );
    expect([...files.keys()]).toContain("xl/worksheets/sheet3.xml");
    for (const xml of files.values()) wellFormed(xml);
    const names = [...files.get("xl/workbook.xml")!.matchAll(/<sheet name="([^"]*)"/g)].map((m) => m[1]!);
    expect(new Set(names.map((n) => n.toLowerCase())).size).toBe(3);
    for (const name of names) expect(name).toMatch(/^[^[\]:*?/\\']{1,31}$/);
    for (const target of ["xl/workbook.xml", "xl/styles.xml"])
      expect(files.get("[Content_Types].xml")).toContain(`/${target}`);
  });

  it("types text as text, whatever it begins with, and numbers as numbers; there is no formula", () => {
    const sheet = unzip(writeXlsx([grid("One")])).get("xl/worksheets/sheet1.xml")!;
    expect(sheet).not.toContain("<f>");
    for (let r = 2; r <= hostile.length + 1; r++)
      expect(sheet).toMatch(new RegExp(`<c r="A${r}" s="0" t="inlineStr">`));
    expect(sheet).toContain('<c r="B2" s="4"><v>-1.5</v></c>');
    expect(sheet).not.toContain('r="B5"');
    expect(sheet).toContain("=1+1</t>");
    expect(sheet).toContain("&lt;b&gt;&amp;");
  });

  it("gives the same bytes twice, and sums CRC-32 as published (check value of ISO 3309: cbf43926)", () => {
    expect(writeXlsx([grid("One")])).toEqual(writeXlsx([grid("One")]));
    expect(crc32(new TextEncoder().encode("123456789"))).toBe(0xcbf43926);
  });
});
