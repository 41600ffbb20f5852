/** Tables of points: CSV, TXT, XYZ. A row is a point: name, two coordinates, height. */
import Papa from "papaparse";
import {
  type Answers,
  BRING_LIMITS,
  type BringRead,
  type BroughtPoint,
  type Decimal,
  refuse,
  skipCounter,
} from "./brought.ts";

type Role = "name" | "a" | "b" | "h" | null;

/** Reads a table. `answers.decimal` counts where the figures leave the decimal sign open. */
export function readTable(text: string, answers: Partial<Answers>): BringRead {
  const rows = splitRows(text);
  if (rows.length === 0) return refuse("empty");
  if (rows.length > BRING_LIMITS.points) return refuse("tooMany", String(BRING_LIMITS.points));
  const { skip, list } = skipCounter();
  const firstFigures = rows.findIndex((row) => row.filter(looksLikeFigure).length >= 2);
  if (firstFigures < 0) return refuse("noFigures");
  const heading =
    rows
      .slice(0, firstFigures)
      .filter((row) => row.some((cell) => cell !== ""))
      .pop() ?? null;
  const body = rows.slice(firstFigures);
  if (heading) skip("headerRow", heading.join(" "));
  const said = decimalOf(body);
  const decimal = answers.decimal ?? said.decimal ?? ".";
  const { roles, axes } = rolesOf(heading, body);
  const points: BroughtPoint[] = [];
  for (const row of body) {
    if (row.every((cell) => cell === "")) {
      skip("emptyRow");
      continue;
    }
    const cell = (role: Role) => row[roles.indexOf(role)] ?? "";
    if (!looksLikeFigure(cell("a")) || !looksLikeFigure(cell("b"))) {
      skip(row.some(looksLikeFigure) ? "shortRow" : "textRow");
      continue;
    }
    const [a, b] = [figure(cell("a"), decimal), figure(cell("b"), decimal)];
    const h = cell("h") === "" ? null : figure(cell("h"), decimal);
    if (a === undefined || b === undefined || h === undefined) {
      skip("doubtfulFigure", row.join(" "));
      continue;
    }
    points.push({ a, b, h, name: cell("name").slice(0, 60) });
  }
  if (points.length === 0 && said.decimal !== null) return refuse("noFigures");
  const asks = [...(axes ? [] : ["axes" as const]), "unit" as const, ...(said.decimal ? [] : ["decimal" as const])];
  return {
    ok: true,
    brought: {
      format: "table",
      points,
      lines: [],
      faces: 0,
      skipped: list(),
      says: { axes, unit: null, decimal: said.decimal },
      asks,
    },
  };
}

/** Rows as cells. Semicolon, tab, bar and comma by the usual rules of quoting; else runs of blanks. */
function splitRows(text: string): string[][] {
  const clean = (text.charCodeAt(0) === 0xfeff ? text.slice(1) : text).trimEnd();
  const sample = clean
    .slice(0, 20_000)
    .split(/\r\n|\n|\r/)
    .filter((row) => row.trim() !== "")
    .slice(0, 30);
  const most = (sign: string) => sample.filter((row) => row.includes(sign)).length >= sample.length / 2;
  const spaced = sample.filter((row) => {
    const cells = row.trim().split(/\s+/);
    return (
      cells.length > 1 &&
      cells.filter((cell) => /^[-+]?\d+([.,]\d+)?$/.test(cell)).length > 1 &&
      cells.every((cell) => !/[;,]$/.test(cell))
    );
  });
  const sign = [";", "\t", "|"].find(most) ?? (most(",") && spaced.length <= sample.length / 2 ? "," : null);
  if (sign === null)
    return clean.split(/\r\n|\n|\r/).map((row) => (row.trim() === "" ? [""] : row.trim().split(/\s+/)));
  const parsed = Papa.parse<string[]>(clean, { delimiter: sign });
  return parsed.data.map((row) => row.map((cell) => cell.trim()));
}

const FIGURE = /^[-+\u2212]?(\d[\d \u00a0\u2009.,]*|[.,]\d+)(e[-+]?\d{1,3})?$/i;
function looksLikeFigure(cell: string): boolean {
  return cell.length <= 40 && FIGURE.test(cell);
}

/** Which sign is the decimal sign; null where all that is there could be either. */
function decimalOf(rows: readonly (readonly string[])[]): { decimal: Decimal | null } {
  const sure = { ".": 0, ",": 0 };
  let open = 0;
  for (const row of rows)
    for (const cell of row) {
      if (!looksLikeFigure(cell)) continue;
      const [dot, comma] = [cell.lastIndexOf("."), cell.lastIndexOf(",")];
      if (dot < 0 && comma < 0) continue;
      if (dot >= 0 && comma >= 0) sure[dot > comma ? "." : ","]++;
      else if (/^[-+\u2212]?[1-9]\d{0,2}([.,]\d{3})+$/.test(cell)) open++;
      else sure[dot >= 0 ? "." : ","]++;
    }
  if (sure["."] > 0 && sure[","] === 0) return { decimal: "." };
  if (sure[","] > 0 && sure["."] === 0) return { decimal: "," };
  return { decimal: open > 0 || sure["."] > 0 ? null : "." };
}

/** A figure in the given writing; undefined where it does not fit it. */
function figure(cell: string, decimal: Decimal): number | undefined {
  const group = decimal === "." ? "," : ".";
  const plain = cell.replace(/[ \u00a0\u2009]/g, "").replace("\u2212", "-");
  const [whole, ...rest] = plain.split(decimal);
  if (rest.length > 1 || rest[0]?.includes(group)) return undefined;
  if (whole!.includes(group) && !/^[-+]?\d{1,3}([.,]\d{3})+$/.test(whole!)) return undefined;
  const value = Number(whole!.replaceAll(group, "") + (rest.length === 1 ? `.${rest[0]}` : ""));
  return Number.isFinite(value) ? value : undefined;
}

/** What each column is: by its heading, else by place; a first column of names or numbers before three figures is the name. */
function rolesOf(
  heading: readonly string[] | null,
  body: readonly (readonly string[])[],
): { roles: Role[]; axes: Answers["axes"] } {
  const names = (heading ?? []).map((cell) => cell.toLowerCase().replace(/[^a-z\u00e0-\u00ff]/g, ""));
  const find = (words: RegExp) => names.findIndex((name) => words.test(name));
  const [east, north] = [find(/^(e|east|easting)(m|mm)?$/), find(/^(n|north|northing)(m|mm)?$/)];
  const [x, y] = [find(/^x(m|mm)?$/), find(/^y(m|mm)?$/)];
  const height = find(/^(z|h|height|level|elev|elevation|hoehe|h\u00f6he|altitude|cote)(m|mm)?$/);
  const name = find(/^(name|id|nr|no|number|point|pt|punkt)$/);
  const roles: Role[] = [];
  const set = (at: number, role: Role) => {
    if (at >= 0) roles[at] = role;
  };
  const pair = east >= 0 && north >= 0 ? [east, north] : x >= 0 && y >= 0 ? [x, y] : null;
  if (pair) {
    set(pair[0]!, "a");
    set(pair[1]!, "b");
    set(height, "h");
    set(name, "name");
    return { roles, axes: east >= 0 && north >= 0 ? "xy" : null };
  }
  const sample = body.slice(0, 200).filter((row) => row.filter(looksLikeFigure).length > 1);
  const figures = (at: number) => sample.filter((row) => looksLikeFigure(row[at] ?? "")).length > sample.length / 2;
  const width = Math.max(...sample.map((row) => row.length));
  const columns = Array.from({ length: width }, (_, at) => at).filter(figures);
  const counted = columns.length > 3 && sample.every((row) => /^\d+$/.test(row[columns[0]!] ?? ""));
  const from = counted ? 1 : 0;
  if (counted) set(columns[0]!, "name");
  else if (columns[0] !== undefined && columns[0] > 0) set(0, "name");
  set(columns[from] ?? -1, "a");
  set(columns[from + 1] ?? -1, "b");
  set(columns[from + 2] ?? -1, "h");
  return { roles, axes: null };
}
