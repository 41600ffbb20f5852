/** The same questions put to general-purpose libraries: a linear-algebra package and a linear-programming solver. */
import highsLoader from "highs";
import { Matrix, solve } from "ml-matrix";
import type { Term } from "../core/solve/cheapest-fit.ts";

type P = readonly [number, number, number];
/** The package's types describe its CommonJS form; what is loaded is the function itself. */
const load = highsLoader as unknown as () => Promise<{
  solve(model: string): { Status: string; ObjectiveValue: number };
}>;
const highs = await load();

/** Least-squares plane a, b, c by the package's QR decomposition, about the mean of the points. */
export function planeByMatrix(points: readonly P[]): { a: number; b: number; c: number } {
  const mean = [0, 1, 2].map((k) => points.reduce((sum, p) => sum + p[k]!, 0) / points.length) as [
    number,
    number,
    number,
  ];
  const rows = new Matrix(points.map(([x, y]) => [x - mean[0], y - mean[1], 1]));
  const x = solve(rows, Matrix.columnVector(points.map((p) => p[2] - mean[2])));
  const [a, b, c] = [x.get(0, 0), x.get(1, 0), x.get(2, 0)];
  return { a, b, c: c + mean[2] - a * mean[0] - b * mean[1] };
}

/** Least half width of a zone of planes, as a linear programme in four unknowns. Coordinates in metres, heights in mm. */
export function halfWidthBySolver(points: readonly P[]): number {
  const lines = points.flatMap(([x, y, z], i) => {
    const plane = `${term(x / 1000)} a ${term(y / 1000)} b + c`;
    return [`u${i}: ${plane} + h >= ${num(z)}`, `l${i}: ${plane} - h <= ${num(z)}`];
  });
  return solveText("h", lines, ["a free", "b free", "c free"]);
}

/** Least cost of terms over k unknowns, as a linear programme with a fill and a grind for each term. */
export function cheapestBySolver(terms: readonly Term[], k: number): number {
  const goal = terms.map((t, i) => `${term(t.up)} f${i} ${term(t.down)} g${i}`).join(" ");
  const lines = terms.map((t, i) => {
    const row = t.row.map((v, c) => `${term(v)} p${c}`).join(" ");
    return `r${i}: ${row} - f${i} + g${i} = ${num(t.z)}`;
  });
  return solveText(
    goal,
    lines,
    Array.from({ length: k }, (_, c) => `p${c} free`),
  );
}

function solveText(goal: string, lines: string[], bounds: string[]): number {
  const text = `Minimize\n obj: ${goal}\nSubject To\n ${lines.join("\n ")}\nBounds\n ${bounds.join("\n ")}\nEnd\n`;
  const answer = highs.solve(text);
  if (answer.Status !== "Optimal") throw new Error(`the solver says ${answer.Status}`);
  return answer.ObjectiveValue;
}

function term(v: number): string {
  return v < 0 ? `- ${num(-v)}` : `+ ${num(v)}`;
}

/** No exponent: the solver's text format wants plain decimals. */
function num(v: number): string {
  return v.toFixed(12);
}
