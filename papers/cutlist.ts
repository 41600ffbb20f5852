import type { PlanRecord } from "../core/plan/record.ts";
import type { Figures, Words } from "../words/words.ts";
import { type Grid, numberColumn, textColumn } from "./grid.ts";
import { type Block, listSheets } from "./page.ts";
import { type Cut, cutsOf, floorTo } from "./pieces.ts";
import type { Paper } from "./sheet.ts";

/** Most pieces named in one line of the list; more go on the next line of the same stop. */
const NAMES_A_LINE = 20;

/** Every piece that a saw touches, a line each: CSV. */
export function cutGrid(record: PlanRecord, words: Words): Grid {
  const w = words.papers.cuts;
  const decimals = record.job.cut.cutTo % 1 === 0 ? 0 : 1;
  return {
    name: "cutlist",
    title: w.title,
    columns: [
      numberColumn(`${w.stop} mm`, decimals),
      numberColumn(`${w.rip} mm`, decimals),
      textColumn(w.piece, 10),
      numberColumn(words.papers.row),
      textColumn(w.board, 10),
      numberColumn(`${w.boardLength} mm`),
      numberColumn(`${w.at} mm`),
      numberColumn(`${w.near} mm`, decimals),
      numberColumn(`${w.far} mm`, decimals),
      textColumn(w.cutEnds),
      textColumn(w.when),
      textColumn(w.shape),
      numberColumn(`${w.left} mm`),
      numberColumn(`${w.right} mm`),
      textColumn(w.off),
      numberColumn(`${w.ripLeft} mm`, decimals),
      numberColumn(`${w.ripRight} mm`, decimals),
    ],
    rows: sorted(cutsOf(record)).map((cut) => [
      cut.stopMm,
      cut.ripMm,
      cut.id,
      cut.row + 1,
      cut.boardId,
      cut.boardMm,
      cut.atMm,
      cut.nearMm,
      cut.farMm,
      w.ends[cut.cutEnds],
      w.whenWords[cut.when],
      w.shapeWords[cut.shape],
      cut.leanLeftMm,
      cut.leanRightMm,
      cut.ripped === null ? "" : w.edges[cut.ripped],
      cut.taperMm?.[0] ?? null,
      cut.taperMm?.[1] ?? null,
    ]),
  };
}

/** The saw list on A4: by stop setting, first what may be cut ahead, then what is cut when measured, then board by board. */
export function cutPaper(record: PlanRecord, words: Words): Paper {
  const w = words.papers.cuts;
  const { write } = words;
  const all = cutsOf(record);
  const cuts = sorted(all);
  const whole = all.filter((cut) => cut.whole).length;
  const section = (when: Cut["when"]): Block => {
    const rows = groupsOf(cuts.filter((cut) => cut.when === when)).flatMap((group) => groupRows(group, words, record));
    return rows.length === 0 ? { kind: "text", text: w.none } : { kind: "table", columns: stopColumns(words), rows };
  };
  const boards = boardRows(record, all, words);
  const blocks: Block[] = [
    { kind: "text", text: w.how(size(record.job.cut.cutTo, record, write), size(record.job.cut.kerf, record, write)) },
    ...(cuts.some((cut) => cut.ripMm !== null) ? [{ kind: "text" as const, text: w.ripNote }] : []),
    ...(cuts.some((cut) => cut.shape === "slanting" || cut.shape === "shaped")
      ? [{ kind: "text" as const, text: w.slanting }]
      : []),
    { kind: "text", text: w.whole(write.number(whole, 0)), bold: true, heightMm: 3 },
    { kind: "heading", text: w.ahead },
    { kind: "text", text: w.aheadNote },
    section("ahead"),
    { kind: "heading", text: w.measured },
    { kind: "text", text: w.measuredNote },
    section("measured"),
    { kind: "heading", text: w.boards },
    { kind: "text", text: w.boardsNote },
    boards.length === 0
      ? { kind: "text", text: w.none }
      : {
          kind: "table",
          columns: [
            { head: w.board, widthMm: 18, bold: true },
            { head: w.boardLength, widthMm: 22, align: "right", lines: 2 },
            { head: w.parts, widthMm: 105, lines: 6 },
            { head: w.rest, widthMm: 35, lines: 3 },
          ],
          rows: boards,
        },
  ];
  return { name: "cutlist", title: w.title, sheets: listSheets(record, words, "cutlist", w.title, blocks), dxf: false };
}

/** Pieces to be cut, longest stop first, then widest, then by number. */
function sorted(cuts: readonly Cut[]): Cut[] {
  const width = (cut: Cut): number => cut.ripMm ?? Number.MAX_SAFE_INTEGER;
  return cuts
    .filter((cut) => !cut.whole)
    .sort((a, b) => b.stopMm - a.stopMm || width(b) - width(a) || a.piece - b.piece);
}

/** Runs of pieces that come off the same settings. */
function groupsOf(cuts: readonly Cut[]): Cut[][] {
  const groups = new Map<string, Cut[]>();
  for (const cut of cuts) {
    const shape =
      cut.shape === "square" ? "" : `${cut.nearMm} ${cut.farMm} ${cut.leanLeftMm} ${cut.leanRightMm} ${cut.shape}`;
    const key = `${cut.stopMm} ${ripOf(cut, String)} ${cut.ripped} ${shape}`;
    const group = groups.get(key);
    if (group) group.push(cut);
    else groups.set(key, [cut]);
  }
  return [...groups.values()];
}

function stopColumns(words: Words) {
  const w = words.papers.cuts;
  const right = "right" as const;
  return [
    { head: w.stop, widthMm: 17, align: right, bold: true },
    { head: w.rip, widthMm: 21, align: right },
    { head: w.off, widthMm: 12 },
    { head: w.count, widthMm: 10, align: right },
    { head: w.pieces, widthMm: 47, lines: 15 },
    { head: w.near, widthMm: 15, align: right },
    { head: w.far, widthMm: 15, align: right },
    { head: w.left, widthMm: 15, align: right },
    { head: w.right, widthMm: 17, align: right },
    { head: w.done, widthMm: 11 },
  ];
}

function groupRows(group: readonly Cut[], words: Words, record: PlanRecord): string[][] {
  const w = words.papers.cuts;
  const first = group[0]!;
  const mm = (value: number): string => size(value, record, words.write);
  const rows: string[][] = [];
  for (let i = 0; i < group.length; i += NAMES_A_LINE) {
    const names = group
      .slice(i, i + NAMES_A_LINE)
      .map((cut) => `${cut.id}${cut.shape === "shaped" ? w.shaped : ""} (${cut.boardId})`);
    const head =
      i === 0
        ? [mm(first.stopMm), ripOf(first, mm), first.ripped ? w.edges[first.ripped] : "", String(group.length)]
        : ["", "", "", ""];
    rows.push([...head, names.join(", "), ...(i === 0 ? slantCells(first, words) : ["", "", "", ""]), ""]);
  }
  return rows;
}

/** Width a piece is ripped to; two where it differs from end to end, left one first. */
export function ripOf(cut: Cut, mm: (value: number) => string): string {
  if (cut.taperMm) return `${mm(cut.taperMm[0])}/${mm(cut.taperMm[1])}`;
  return cut.ripMm === null ? "" : mm(cut.ripMm);
}

/** Lengths of a slanting or shaped piece's edges, and how its ends lean; nothing for a square one. */
function slantCells(cut: Cut, words: Words): string[] {
  if (cut.shape === "square" || cut.shape === "tapered") return ["", "", "", ""];
  const mm = (value: number): string => words.write.mm(value);
  const signed = (value: number): string => (value === 0 ? "" : value > 0 ? `+${mm(value)}` : mm(value));
  return [mm(cut.nearMm), mm(cut.farMm), signed(cut.leanLeftMm), signed(cut.leanRightMm)];
}

/** A line a board that is cut: its parts from the left, and what is left over. */
function boardRows(record: PlanRecord, cuts: readonly Cut[], words: Words): string[][] {
  const { cutting, job } = record;
  const mm = (value: number): string => size(value, record, words.write);
  const rows: string[][] = [];
  for (const board of cutting.boards) {
    if (board.parts.length === 1 && cuts[board.parts[0]!.piece]!.whole) continue;
    const parts = [...board.parts].sort((a, b) => a.at[0] - b.at[0] || a.at[1] - b.at[1]);
    const said = parts.map((part) => {
      const cut = cuts[part.piece]!;
      const rip = cut.ripMm === null ? "" : ` × ${ripOf(cut, mm)}`;
      return `${cut.id} ${mm(cut.stopMm)}${rip}${part.turned ? ` ${words.papers.cuts.turned}` : ""}`;
    });
    const rest = board.offcuts.map(
      (o) => `${mm(floorTo(o.size[0], job.cut.cutTo))} × ${mm(floorTo(o.size[1], job.cut.cutTo))}`,
    );
    rows.push([board.id, mm(board.lengthUm / 1000), said.join("  |  "), rest.join(", ")]);
  }
  return rows;
}

/** A saw's figure: whole millimetres unless the job cuts finer. */
function size(mm: number, record: PlanRecord, write: Figures): string {
  return write.number(mm, record.job.cut.cutTo % 1 === 0 && mm % 1 === 0 ? 0 : 1);
}
