import type { Grid, GridColumn } from "../papers/grid.ts";
import { zipStored } from "./zip.ts";

/**
 * Grids as a workbook, one sheet each (ECMA-376, SpreadsheetML): text is inline strings, so nothing is ever read as a
 * formula; numbers keep their value and show their column's decimals; the head stays in sight. Stored, not compressed,
 * no dates: same grids, same bytes. Sheet names are cut to what the format allows.
 */
export function writeXlsx(grids: readonly Grid[]): Uint8Array {
  const utf8 = new TextEncoder();
  const files: [string, string][] = [
    ["[Content_Types].xml", contentTypes(grids.length)],
    ["_rels/.rels", relations([["officeDocument", "xl/workbook.xml"]])],
    ["xl/workbook.xml", workbook(grids)],
    [
      "xl/_rels/workbook.xml.rels",
      relations([
        ...grids.map((_, i) => ["worksheet", `worksheets/sheet${i + 1}.xml`] as const),
        ["styles", "styles.xml"],
      ]),
    ],
    ["xl/styles.xml", STYLES],
    ...grids.map((grid, i) => [`xl/worksheets/sheet${i + 1}.xml`, worksheet(grid)] as [string, string]),
  ];
  return zipStored(files.map(([name, text]) => ({ name, bytes: utf8.encode(text) })));
}

const XML = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n`;
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";
/** Cell styles by number: 0 text, 1 head, then numbers with 0 to 3 decimals. */
const STYLES =
  `${XML}<styleSheet xmlns="${MAIN}"><numFmts count="4">` +
  ["#,##0", "#,##0.0", "#,##0.00", "#,##0.000"]
    .map((code, i) => `<numFmt numFmtId="${164 + i}" formatCode="${code}"/>`)
    .join("") +
  `</numFmts><fonts count="2"><font><sz val="11"/></font><font><b/><sz val="11"/></font></fonts>` +
  `<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
  `<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
  `<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
  `<cellXfs count="6"><xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>` +
  `<xf numFmtId="49" fontId="1" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyFont="1"/>` +
  [0, 1, 2, 3]
    .map((i) => `<xf numFmtId="${164 + i}" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>`)
    .join("") +
  `</cellXfs><cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`;

function worksheet(grid: Grid): string {
  const columns = grid.columns
    .map((c, i) => `<col min="${i + 1}" max="${i + 1}" width="${c.width}" customWidth="1"/>`)
    .join("");
  const head = row(
    1,
    grid.columns.map((column, i) => textCell(ref(1, i), column.head, 1)),
  );
  const body = grid.rows.map((cells, r) =>
    row(
      r + 2,
      cells.map((cell, i) => {
        if (cell === null) return "";
        return typeof cell === "string"
          ? textCell(ref(r + 2, i), cell, 0)
          : numberCell(ref(r + 2, i), cell, grid.columns[i]!);
      }),
    ),
  );
  return (
    `${XML}<worksheet xmlns="${MAIN}"><sheetViews><sheetView workbookViewId="0">` +
    `<pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>` +
    `<cols>${columns}</cols><sheetData>${head}${body.join("")}</sheetData></worksheet>`
  );
}

function row(number: number, cells: readonly string[]): string {
  return `<row r="${number}">${cells.join("")}</row>`;
}

function textCell(at: string, text: string, style: number): string {
  return `<c r="${at}" s="${style}" t="inlineStr"><is><t xml:space="preserve">${escaped(text)}</t></is></c>`;
}

function numberCell(at: string, value: number, column: GridColumn): string {
  return `<c r="${at}" s="${2 + Math.min(3, column.decimals)}"><v>${String(value + 0)}</v></c>`;
}

/** A1, B1, ... of a row from 1 and a column from 0. */
function ref(row: number, column: number): string {
  let name = "";
  for (let c = column + 1; c > 0; c = Math.floor((c - 1) / 26)) name = String.fromCharCode(65 + ((c - 1) % 26)) + name;
  return `${name}${row}`;
}

function workbook(grids: readonly Grid[]): string {
  const names = new Set<string>();
  const sheets = grids.map((grid, i) => {
    let name = [...grid.title.replace(/[[\]:*?/\\']/g, " ").trim()].slice(0, 28).join("") || `Sheet ${i + 1}`;
    if (names.has(name.toLowerCase())) name = `${name} ${i + 1}`;
    names.add(name.toLowerCase());
    return `<sheet name="${escaped(name)}" sheetId="${i + 1}" r:id="rId${i + 1}"/>`;
  });
  return `${XML}<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${sheets.join("")}</sheets></workbook>`;
}

function relations(targets: readonly (readonly [string, string])[]): string {
  const list = targets.map(
    ([type, target], i) => `<Relationship Id="rId${i + 1}" Type="${OFFICE}/${type}" Target="${target}"/>`,
  );
  return `${XML}<Relationships xmlns="${PACKAGE}/relationships">${list.join("")}</Relationships>`;
}

function contentTypes(sheets: number): string {
  const parts = Array.from(
    { length: sheets },
    (_, i) => `<Override PartName="/xl/worksheets/sheet${i + 1}.xml" ContentType="${TYPE}.worksheet+xml"/>`,
  );
  return (
    `${XML}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
    `<Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/>` +
    `<Override PartName="/xl/styles.xml" ContentType="${TYPE}.styles+xml"/>${parts.join("")}</Types>`
  );
}

/** Text as XML content; characters XML 1.0 forbids (control characters, lone halves of pairs) become U+FFFD. */
function escaped(text: string): string {
  let out = "";
  for (const character of text) {
    const code = character.codePointAt(0)!;
    const allowed =
      code === 9 ||
      code === 10 ||
      code === 13 ||
      (code >= 32 && code < 0xd800) ||
      (code > 0xdfff && code !== 0xfffe && code !== 0xffff);
    out += allowed ? (ESCAPES[character] ?? character) : "\ufffd";
  }
  return out;
}
const ESCAPES: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "\r": "&#13;" };
