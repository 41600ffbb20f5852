/** What the file itself must be: finite figures, ids used once, lists in order (rows, then u). */
import { LIMITS } from "../../base/limits.ts";
import type { PlanFile } from "../../plan/plan.ts";
import { blame, type Scene } from "../scene.ts";

/** No coordinate is further out than this, mm (national grids fit), nor further from the frame's origin; no figure larger. */
const FAR_MM = 2e10;
const NEAR_MM = 4 * LIMITS.extentMm;
const LARGEST = 1e18;

/** The place of the first figure that is not one, or too large to be measured; null where all are sound. */
export function unsoundFigure(plan: PlanFile): string | null {
  const [ox, oy] = plan.frame.origin;
  const near = ([x, y]: readonly [number, number]): boolean =>
    Math.abs(x - ox) <= NEAR_MM && Math.abs(y - oy) <= NEAR_MM;
  if (!(Math.abs(ox) <= FAR_MM && Math.abs(oy) <= FAR_MM && Math.abs(plan.frame.angle) <= 1e6)) return "frame";
  for (const piece of plan.pieces)
    for (const ring of [piece.ring, ...piece.holes])
      if (ring.length < 3 || !ring.every(near)) return `pieces ${piece.id}`;
  for (const row of plan.rows) if (!row.v.every((v) => Math.abs(v) <= NEAR_MM)) return `rows ${row.row}`;
  for (const clip of plan.clips) if (!near(clip.at)) return `clips ${clip.id}`;
  for (const joint of plan.joints) if (!(Math.abs(joint.u) <= NEAR_MM)) return `joints ${joint.row}`;
  for (const board of plan.boards)
    for (const part of board.parts)
      for (const p of [part.at, part.size, ...(part.ring ?? [])])
        if (!p.every((x) => Math.abs(x) <= NEAR_MM)) return `boards ${board.id}`;
  return deepUnsound(plan, "plan", 0);
}

function deepUnsound(value: unknown, place: string, depth: number): string | null {
  if (typeof value === "number") return Math.abs(value) <= LARGEST ? null : place;
  if (typeof value !== "object" || value === null || depth > LIMITS.jsonDepth) return null;
  for (const [key, inner] of Object.entries(value)) {
    const found = deepUnsound(inner, depth === 0 ? key : place, depth + 1);
    if (found) return found;
  }
  return null;
}

export function judgeFormat(scene: Scene): void {
  const { plan } = scene;
  once(
    scene,
    "pieces",
    plan.pieces.map((p) => p.id),
  );
  once(
    scene,
    "clips",
    plan.clips.map((c) => c.id),
  );
  once(
    scene,
    "boards",
    plan.boards.map((b) => b.id),
  );
  once(
    scene,
    "rows",
    plan.rows.map((r) => String(r.row)),
  );
  for (let i = 1; i < plan.rows.length; i++)
    if (plan.rows[i]!.row < plan.rows[i - 1]!.row)
      blame(scene, "outOfOrder", null, plan.rows[i]!.row, null, { list: "rows" });
  for (let i = 1; i < scene.pieces.length; i++) {
    const a = scene.pieces[i - 1]!;
    const b = scene.pieces[i]!;
    if (b.source.row < a.source.row || (b.source.row === a.source.row && b.u0 < a.u0 - 10))
      blame(scene, "outOfOrder", [b.u0, b.v0], b.source.id, a.source.id, { list: "pieces" });
  }
}

function once(scene: Scene, list: string, ids: string[]): void {
  const seen = new Set<string>();
  for (const id of ids) {
    if (seen.has(id)) blame(scene, "idRepeated", null, id, null, { list, id });
    seen.add(id);
  }
}
