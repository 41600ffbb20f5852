import type { Item, Layer } from "../../../papers/sheet.ts";
import type { SaidFinding } from "../desk/asks.ts";
import type { Camera, Size } from "./camera.ts";
import { findingMarks, paintFindings } from "./finding-marks.ts";
import type { Hit } from "./hit.ts";
import { type Prepared, paintItems, prepare } from "./paint.ts";
import { type Pen, paintBoards, paintClips, paintPicked } from "./paint-rows.ts";
import type { Rows } from "./rows.ts";
import type { Tones } from "./tones.ts";

/** Everything on the board at a moment. */
export interface Scene {
  /** Items by where they lie: under the boards, over them, and figures on top of all. */
  under: readonly Prepared[];
  over: readonly Prepared[];
  figures: readonly Prepared[];
  overlay: readonly Prepared[];
  rows: Rows | null;
  boards: "full" | "pale" | "none";
  clips: boolean;
  findings: readonly SaidFinding[];
  picked: Hit | null;
}
/** Painted from the prepared rows instead of item by item. */
const FROM_ROWS = new Set<Layer>(["boards", "grain", "ripped", "cut-ends", "clips", "screws"]);
const UNDER = new Set<Layer>(["field", "slab"]);
const FIGURES = new Set<Layer>(["text", "dimensions"]);

/** Sorts a drawing's items by where they lie; a drawing without boards keeps its own order. */
export function layersOf(items: readonly Item[], fromRows: boolean): Pick<Scene, "under" | "over" | "figures"> {
  if (!fromRows) return { under: [], over: prepare(items), figures: [] };
  const rest = items.filter(({ layer }) => !FROM_ROWS.has(layer));
  const pass = (of: (layer: Layer) => boolean) => prepare(rest.filter(({ layer }) => of(layer)));
  return {
    under: pass((layer) => UNDER.has(layer)),
    over: pass((layer) => !UNDER.has(layer) && !FIGURES.has(layer)),
    figures: pass((layer) => FIGURES.has(layer)),
  };
}

/** Paints the whole board anew. */
export function paintScene(pen: Pen, scene: Scene, camera: Camera, size: Size, tones: Tones): void {
  const ratio = window.devicePixelRatio;
  pen.setTransform(ratio, 0, 0, ratio, 0, 0);
  pen.fillStyle = tones.sheet;
  pen.fillRect(0, 0, size[0], size[1]);
  const { rows, picked, findings } = scene;
  paintItems(pen, scene.under, camera, size, tones);
  if (rows && scene.boards !== "none") {
    paintBoards(pen, rows, camera, size, tones, scene.boards === "pale");
    if (picked?.kind === "piece" && picked.index < rows.shaped.length)
      paintPicked(pen, rows, picked.index, camera, size, tones);
  }
  paintItems(pen, scene.over, camera, size, tones);
  if (rows && scene.clips) paintClips(pen, rows, camera, size, tones);
  paintItems(pen, scene.figures, camera, size, tones);
  paintItems(pen, scene.overlay, camera, size, tones);
  const marks = findingMarks(findings, camera, size);
  paintFindings(pen, findings, marks, picked?.kind === "finding" ? picked.index : null, tones);
}

/** A ring round what was picked, where it is not a board. */
export function paintRing(pen: Pen, [x, y]: readonly [number, number], tones: Tones): void {
  pen.strokeStyle = tones.accent;
  pen.lineWidth = 3;
  pen.beginPath();
  pen.arc(x, y, 14, 0, 7);
  pen.stroke();
}
