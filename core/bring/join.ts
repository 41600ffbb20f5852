/** Lines drawn piece by piece, joined end to end where each end meets exactly one other. */
import type { BroughtLine } from "./brought.ts";

/** Ends this near (share of the drawing's size) are one point. */
const SAME = 1e-7;

export function joinLines(lines: readonly BroughtLine[]): { closed: BroughtLine[]; open: number } {
  const closed: BroughtLine[] = [];
  const loose: BroughtLine[] = [];
  const reach = lines.reduce(
    (most, { vertices }) => vertices.reduce((far, [a, b]) => Math.max(far, Math.abs(a), Math.abs(b)), most),
    1,
  );
  const same = (p: readonly number[], q: readonly number[]) =>
    Math.abs(p[0]! - q[0]!) + Math.abs(p[1]! - q[1]!) <= reach * SAME;
  for (const line of lines) {
    const [first, last] = [line.vertices[0]!, line.vertices[line.vertices.length - 1]!];
    if (line.closed) closed.push(ringOf(line, same));
    else if (line.vertices.length > 3 && same(first, last)) closed.push(ringOf({ ...line, closed: true }, same));
    else loose.push(line);
  }
  const cell = (p: readonly number[]) =>
    `${Math.round(p[0]! / (reach * SAME * 4))} ${Math.round(p[1]! / (reach * SAME * 4))}`;
  const at = new Map<string, number[]>();
  loose.forEach((line, i) => {
    for (const end of [line.vertices[0]!, line.vertices[line.vertices.length - 1]!])
      at.set(cell(end), [...(at.get(cell(end)) ?? []), i]);
  });
  const used = new Set<number>();
  let open = 0;
  loose.forEach((start, i) => {
    if (used.has(i)) return;
    used.add(i);
    const vertices = start.vertices.map((vertex): [number, number, number] => [...vertex]);
    let count = 1;
    for (;;) {
      const end = vertices[vertices.length - 1]!;
      if (vertices.length > 3 && same(end, vertices[0]!)) break;
      const meeting = at.get(cell(end)) ?? [];
      const next = meeting.length === 2 ? meeting.find((other) => !used.has(other)) : undefined;
      if (next === undefined) break;
      used.add(next);
      count++;
      const piece = loose[next]!.vertices;
      const forward = same(piece[0]!, end);
      if (!forward && !same(piece[piece.length - 1]!, end)) break;
      const run = forward ? piece : turned(piece);
      vertices[vertices.length - 1]![2] = run[0]![2];
      vertices.push(...run.slice(1).map((vertex): [number, number, number] => [...vertex]));
    }
    if (vertices.length > 3 && same(vertices[0]!, vertices[vertices.length - 1]!))
      closed.push(ringOf({ vertices, closed: true, name: start.name }, same));
    else open += count;
  });
  return { closed, open };
}

/** The line run backward: bulges belong to edges and turn over. */
function turned(vertices: readonly (readonly [number, number, number])[]): [number, number, number][] {
  const n = vertices.length;
  return Array.from({ length: n }, (_, i) => {
    const [a, b] = vertices[n - 1 - i]!;
    return [a, b, i + 1 < n ? -vertices[n - 2 - i]![2] + 0 : 0];
  });
}

/** Without the repeated first point and without points that follow themselves. */
function ringOf(line: BroughtLine, same: (p: readonly number[], q: readonly number[]) => boolean): BroughtLine {
  const vertices = line.vertices.filter((vertex, i) => i === 0 || !same(vertex, line.vertices[i - 1]!));
  while (vertices.length > 1 && same(vertices[0]!, vertices[vertices.length - 1]!)) vertices.pop();
  return { ...line, vertices };
}
