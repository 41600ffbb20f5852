/** The page that bench/board.ts opens: paints a terrace of 10,000 boards and 60,000 clips, and the same rectangles in a bare loop. */
import type { PlanRecord } from "../../../core/plan/record.ts";
import { type Camera, fitCamera, pxPerMm, type Size, seen } from "../board/camera.ts";
import { piecesIn, type Rows, rowsOf, spotsIn, uvBox } from "../board/rows.ts";
import { paintScene, type Scene } from "../board/scene.ts";
import type { Tones } from "../board/tones.ts";

const ROWS = 250;
const BOARDS = 40;
const CLIPS_A_ROW = 240;
const LENGTH = 1500;
const WIDTH = 145;
const GAP = 5;
const SIZE: Size = [1200, 800];
const TONES: Tones = {
  ink: "#1d1c1a",
  accent: "#1f4e9c",
  grey: "#777165",
  sheet: "#f7f5f1",
  board: "#ece5d8",
  gap: "#a89f8e",
  picked: "#c9d8f2",
  onBoard: "#5f5a50",
  fill: (colour) => colour,
};

/** A half-bond terrace as the painter sees it, in every respect but the stages that made it. */
function terrace(): PlanRecord {
  const pieces = [];
  const clips = [];
  for (let row = 0; row < ROWS; row++) {
    const v0 = row * (WIDTH + GAP);
    for (let k = 0; k < BOARDS; k++) {
      const u0 = k * (LENGTH + GAP) + (row % 2 === 0 ? 0 : 0.5 * (LENGTH + GAP));
      const [u1, v1] = [u0 + LENGTH, v0 + WIDTH];
      const ring = [
        [u0, v0],
        [u1, v0],
        [u1, v1],
        [u0, v1],
      ].map(([u, v]) => [u! * 1000, v! * 1000]);
      pieces.push({
        id: `p${pieces.length + 1}`,
        row,
        region: { outer: ring, holes: [] },
        u0Um: u0 * 1000,
        u1Um: u1 * 1000,
        v0Um: v0 * 1000,
        v1Um: v1 * 1000,
        lengthUm: LENGTH * 1000,
        widthUm: WIDTH * 1000,
        ends: k === 0 ? ["cut", "factory"] : ["factory", "factory"],
        edges: ["groove", "groove"],
        plain: true,
      });
    }
    for (let k = 0; k < CLIPS_A_ROW; k++)
      clips.push({
        kind: row === 0 ? "start" : "seam",
        uUm: (80 + (k * (BOARDS * (LENGTH + GAP))) / CLIPS_A_ROW) * 1000,
        vUm: (v0 - GAP / 2) * 1000,
      });
  }
  return {
    bond: { pieces, joints: [] },
    setout: {
      frame: { originXMm: 0, originYMm: 0, angleDeg: 0, cos: 1, sin: 0 },
      rows: Array.from({ length: ROWS }, () => ({})),
      boardWidthUm: WIDTH * 1000,
    },
    fixing: { clips, screws: [] },
    cutting: { ends: pieces.map(({ ends }) => ends) },
    job: { gaps: { end: GAP, side: GAP } },
  } as unknown as PlanRecord;
}

export interface Measured {
  name: string;
  /** The layer: boards with all their strokes, or pale boards and clips. */
  layer: "setout" | "fixing";
  /** 1 : scale on the screen. */
  scale: number;
  boards: number;
  clips: number;
  oursMs: number;
  bareMs: number;
}

/** Median times of one frame, ours and the bare loop's, taken in turn. */
function measure(rounds: number): Measured[] {
  const rows = rowsOf(terrace());
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [SIZE[0], SIZE[1]];
  document.body.append(canvas);
  const pen = canvas.getContext("2d", { alpha: false })!;
  const scene: Scene = {
    under: [],
    over: [],
    figures: [],
    overlay: [],
    rows,
    boards: "pale",
    clips: false,
    findings: [],
    picked: null,
  };
  const bounds = { x0: 0, y0: 0, x1: BOARDS * (LENGTH + GAP), y1: ROWS * (WIDTH + GAP) };
  const whole = fitCamera(bounds, SIZE[0], SIZE[1]);
  const at = (scale: number): Camera => ({ ...whole, scale });
  const looks: [string, Camera][] = [
    ["whole terrace", whole],
    ["half of it", at(whole.scale / 1.5)],
    ["1 : 100", at(100)],
    ["1 : 50", at(50)],
    ["1 : 40", at(40)],
    ["1 : 20", at(20)],
  ];
  const layers = (["fixing", "setout"] as const).flatMap((layer) => looks.map((look) => [layer, ...look] as const));
  return layers.map(([layer, name, camera]) => {
    scene.boards = layer === "setout" ? "full" : "pale";
    scene.clips = layer === "fixing";
    const ours: number[] = [];
    const bare: number[] = [];
    const { boards, clips } = visible(rows, camera);
    const shown = { boards, clips: scene.clips ? clips : 0 };
    for (let i = 0; i < rounds; i++) {
      // Every frame is panned and zoomed a little, as under a hand.
      const moved = {
        at: [camera.at[0] + i * 3 * camera.scale * 0.1, camera.at[1] + i * camera.scale * 0.1] as const,
        scale: camera.scale * (1 + 0.002 * (i % 7)),
      };
      ours.push(timed(pen, () => paintScene(pen, scene, moved, SIZE, TONES)));
      bare.push(timed(pen, () => bareLoop(pen, rows, moved, scene.clips)));
    }
    return { name, layer, scale: Math.round(camera.scale), ...shown, oursMs: median(ours), bareMs: median(bare) };
  });
}

/** Times a frame until its pixels are there. */
function timed(pen: CanvasRenderingContext2D, paint: () => void): number {
  pen.getImageData(0, 0, 1, 1);
  const begin = performance.now();
  paint();
  pen.getImageData(0, 0, 1, 1);
  return performance.now() - begin;
}

/** Fills a rectangle for every visible board and clip, and does nothing else. What is visible is found the same way. */
function bareLoop(pen: CanvasRenderingContext2D, rows: Rows, camera: Camera, clips: boolean): void {
  const px = pxPerMm(camera);
  pen.setTransform(1, 0, 0, 1, 0, 0);
  pen.fillStyle = TONES.sheet;
  pen.fillRect(0, 0, SIZE[0], SIZE[1]);
  const x = SIZE[0] / 2 - camera.at[0] * px;
  const y = SIZE[1] / 2 + camera.at[1] * px;
  const box = uvBox(rows, seen(camera, SIZE));
  pen.fillStyle = TONES.board;
  piecesIn(rows, box, (i) => {
    const at = i * 4;
    const [u0, v0, u1, v1] = [rows.pieces[at]!, rows.pieces[at + 1]!, rows.pieces[at + 2]!, rows.pieces[at + 3]!];
    pen.fillRect(x + u0 * px, y - v1 * px, (u1 - u0) * px, (v1 - v0) * px);
  });
  if (!clips) return;
  pen.fillStyle = TONES.ink;
  const side = 120 * px;
  const high = 12 * px;
  spotsIn(rows.clips, box, (k) => {
    pen.fillRect(x + rows.clips.u[k]! * px - side / 2, y - rows.clips.v[k]! * px - high / 2, side, high);
  });
}

function visible(rows: Rows, camera: Camera): { boards: number; clips: number } {
  const box = uvBox(rows, seen(camera, SIZE));
  let boards = 0;
  let clips = 0;
  piecesIn(rows, box, () => boards++);
  spotsIn(rows.clips, box, () => clips++);
  return { boards, clips };
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1]!;
}

(window as unknown as { measure: typeof measure }).measure = measure;
