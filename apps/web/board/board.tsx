import { useEffect, useRef, useState } from "preact/hooks";
import type { Item, Pt } from "../../../papers/sheet.ts";
import { type Bounds, type Camera, fitCamera, PX_PER_MM } from "./camera.ts";
import { paint } from "./paint.ts";

export interface BoardProps {
  /** Site millimetres; sized for the paper scale they were made at. */
  items: readonly Item[];
  overlay: readonly Item[] | null;
  /** The site: what "whole" shows. */
  bounds: Bounds;
  /** Null: the whole site. */
  camera: Camera | null;
  /** The board's camera, also after it fitted the whole: the app asks for items of its scale. */
  onCamera(camera: Camera, moved: boolean): void;
  onTap(at: Pt, withinMm: number): void;
  /** Said to those who do not see the drawing. */
  label: string;
  /** Changes when colours change. */
  ground: string;
}

/** The drawing. */
export function Board({ items, overlay, bounds, camera, onCamera, onTap, label, ground }: BoardProps) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const [size, setSize] = useState<readonly [number, number]>([0, 0]);
  const look = camera ?? (size[0] > 0 ? fitCamera(bounds, size[0], size[1]) : null);
  useEffect(() => {
    const element = canvas.current!;
    const watch = new ResizeObserver(() => setSize([element.clientWidth, element.clientHeight]));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  useEffect(() => {
    if (look) onCamera(look, false);
  }, [look?.scale, look?.at[0], look?.at[1]]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the ground changes the colours that paint reads from the page
  useEffect(() => {
    if (look) paint(canvas.current!, [...items, ...(overlay ?? [])], look);
  }, [items, overlay, look, ground, size]);
  return (
    <canvas
      class="board"
      ref={canvas}
      role="img"
      aria-label={label}
      onClick={(event) => {
        if (!look) return;
        const mm = look.scale / PX_PER_MM;
        const [x, y] = [event.offsetX - size[0] / 2, size[1] / 2 - event.offsetY];
        onTap([look.at[0] + x * mm, look.at[1] + y * mm], 22 * mm);
      }}
      onWheel={(event) => {
        if (look) onCamera({ ...look, scale: look.scale * (event.deltaY > 0 ? 1.15 : 1 / 1.15) }, true);
      }}
    />
  );
}
