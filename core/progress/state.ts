import type { Xy } from "../job/job.ts";
import type { Live } from "./change.ts";

/** What was really done, as planning and papers ask for it. Of several measurements of one thing the last counts. Lengths mm. */
export interface ProgressState {
  /** Pieces that lie, in the order they were laid; one spoilt after it was laid lies no more. */
  laid: Set<string>;
  /** Row to the measured distance of its upper edge from the datum, at least u and at greatest u. */
  lines: Map<number, readonly [number, number]>;
  /** "p1 p2" to the measured end gap between them. */
  gaps: Map<string, number>;
  broken: { boards: Set<string>; pieces: Set<string> };
  offcuts: { length: number; width: number }[];
  holes: Map<string, Xy>;
  walls: Map<number, Xy[]>;
  levels: (readonly [x: number, y: number, z: number])[];
}

/** O(events). */
export function stateOf(live: Live): ProgressState {
  const state: ProgressState = {
    laid: new Set(),
    lines: new Map(),
    gaps: new Map(),
    broken: { boards: new Set(), pieces: new Set() },
    offcuts: [],
    holes: new Map(),
    walls: new Map(),
    levels: [],
  };
  for (const event of live) {
    switch (event.kind) {
      case "laid":
        state.laid.add(event.piece);
        break;
      case "line":
        state.lines.set(event.row, event.v);
        break;
      case "gap":
        state.gaps.set(event.joint.join(" "), event.mm);
        break;
      case "broken":
        if (event.board !== undefined) state.broken.boards.add(event.board);
        if (event.piece !== undefined) {
          state.broken.pieces.add(event.piece);
          state.laid.delete(event.piece);
        }
        break;
      case "offcut":
        state.offcuts.push({ length: event.length, width: event.width });
        break;
      case "hole":
        state.holes.set(event.clip, event.at);
        break;
      case "wall":
        state.walls.set(event.side, event.points);
        break;
      case "level":
        state.levels.push(event.at);
        break;
      case "undo":
        break;
    }
  }
  return state;
}
