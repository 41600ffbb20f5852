import { useEffect, useRef, useState } from "preact/hooks";
import type { Item, Pt } from "../../../../papers/sheet.ts";
import { type Camera, toScreen, toSitePoint } from "../../board/camera.ts";
import { paintItems, prepare } from "../../board/paint.ts";
import { tonesOf } from "../../board/tones.ts";
import "./grips.css";

/** Points on the drawing that can be dragged, or moved with the arrow keys. */
export interface Grips {
  /** Site mm. */
  at: readonly Pt[];
  labels: readonly string[];
  /** Where a point dragged to here would come to lie. */
  snap(index: number, to: Pt): Pt;
  /** Let go: the one edit of the drag. */
  drop(index: number, to: Pt): void;
  /** What is drawn while point `index` is at `to`. */
  shown(index: number, to: Pt): readonly Item[];
}
const LENS_PX = 132;
/** The lens shows things this many times larger. */
const LARGER = 4;
const KEY_STEP_MM = 10;
const WAYS: Record<string, Pt> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

/** Handles over the board, and an enlarged view beside the finger that covers the place. */
export function GripLayer({ grips, camera, items }: { grips: Grips; camera: Camera; items: readonly Item[] }) {
  const layer = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState<readonly [number, number]>([0, 0]);
  const [held, setHeld] = useState<{ index: number; to: Pt } | null>(null);
  useEffect(() => {
    const watch = new ResizeObserver(() => setSize([layer.current!.clientWidth, layer.current!.clientHeight]));
    watch.observe(layer.current!);
    return () => watch.disconnect();
  }, []);
  const follow = (index: number, event: PointerEvent): Pt => {
    const box = layer.current!.getBoundingClientRect();
    return grips.snap(index, toSitePoint(camera, size, [event.clientX - box.left, event.clientY - box.top]));
  };
  return (
    <div class="grips" ref={layer}>
      {size[0] > 0 &&
        grips.at.map((at, index) => {
          const [x, y] = toScreen(camera, size, held?.index === index ? held.to : at);
          return (
            <button
              key={grips.labels[index]}
              type="button"
              aria-label={grips.labels[index]}
              style={{ transform: `translate(${x - 22}px, ${y - 22}px)` }}
              onPointerDown={(event) => {
                event.currentTarget.setPointerCapture(event.pointerId);
                setHeld({ index, to: at });
              }}
              onPointerMove={(event) => {
                if (held?.index === index) setHeld({ index, to: follow(index, event) });
              }}
              onPointerUp={() => {
                if (held && (held.to[0] !== at[0] || held.to[1] !== at[1])) grips.drop(index, held.to);
                setHeld(null);
              }}
              onPointerCancel={() => setHeld(null)}
              onKeyDown={(event) => {
                const way = WAYS[event.key];
                if (!way) return;
                event.preventDefault();
                grips.drop(index, [at[0] + way[0] * KEY_STEP_MM, at[1] + way[1] * KEY_STEP_MM]);
              }}
            />
          );
        })}
      {held && (
        <Lens camera={camera} size={size} at={held.to} items={[...items, ...grips.shown(held.index, held.to)]} />
      )}
    </div>
  );
}

function Lens(props: { camera: Camera; size: readonly [number, number]; at: Pt; items: readonly Item[] }) {
  const { camera, size, at, items } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const [x, y] = toScreen(camera, size, at);
  // above the finger, and to its left; at the drawing's edge on the other side
  const left = x > LENS_PX + 40 ? x - LENS_PX - 30 : x + 30;
  const top = y > LENS_PX + 40 ? y - LENS_PX - 30 : y + 30;
  useEffect(() => {
    const element = canvas.current!;
    const ratio = window.devicePixelRatio;
    element.width = LENS_PX * ratio;
    element.height = LENS_PX * ratio;
    const pen = element.getContext("2d")!;
    pen.scale(ratio, ratio);
    const tones = tonesOf(element);
    const near = { at, scale: camera.scale / LARGER };
    paintItems(pen, prepare(items), near, [LENS_PX, LENS_PX], tones);
    pen.strokeStyle = tones.accent;
    pen.strokeRect(LENS_PX / 2 - 0.5, 0, 1, LENS_PX);
    pen.strokeRect(0, LENS_PX / 2 - 0.5, LENS_PX, 1);
  });
  return <canvas class="lens" ref={canvas} style={{ transform: `translate(${left}px, ${top}px)` }} />;
}
