import type { Pt } from "../../../papers/sheet.ts";
import { type Camera, panned, type Size, zoomed } from "./camera.ts";

/** What the board lets hands do. */
export interface Held {
  camera(): Camera | null;
  size(): Size;
  /** The camera moved under the hand. */
  move(camera: Camera): void;
  tap(on: Pt): void;
}
/** A hand that moves less than this means a tap, CSS px: a mouse is steadier than a thumb. */
const STEADY_PX = { mouse: 4, other: 10 };

/** Pan with one pointer, pinch with two, wheel to zoom, tap to pick. Answers how to let go again. */
export function takeHands(element: HTMLElement, held: Held): () => void {
  const down = new Map<number, Pt>();
  let begun: { on: Pt; moved: boolean; many: boolean } | null = null;
  const place = (event: PointerEvent | WheelEvent): Pt => {
    const box = element.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  };
  const press = (event: PointerEvent) => {
    if (event.button !== 0) return;
    element.setPointerCapture(event.pointerId);
    down.set(event.pointerId, place(event));
    if (down.size === 1) begun = { on: place(event), moved: false, many: false };
    else if (begun) begun.many = true;
  };
  const drag = (event: PointerEvent) => {
    const last = down.get(event.pointerId);
    const camera = held.camera();
    if (!last || !begun || !camera) return;
    const now = place(event);
    const steady = event.pointerType === "mouse" ? STEADY_PX.mouse : STEADY_PX.other;
    if (!begun.moved && !begun.many && Math.hypot(now[0] - begun.on[0], now[1] - begun.on[1]) < steady) return;
    begun.moved = true;
    if (down.size === 1) held.move(panned(camera, now[0] - last[0], now[1] - last[1]));
    else {
      const other = [...down].find(([id]) => id !== event.pointerId)![1];
      const before = Math.hypot(last[0] - other[0], last[1] - other[1]);
      const after = Math.hypot(now[0] - other[0], now[1] - other[1]);
      const shifted = panned(camera, (now[0] - last[0]) / 2, (now[1] - last[1]) / 2);
      const middle: Pt = [(now[0] + other[0]) / 2, (now[1] + other[1]) / 2];
      held.move(before > 0 ? zoomed(shifted, held.size(), after / before, middle) : shifted);
    }
    down.set(event.pointerId, now);
  };
  const lift = (event: PointerEvent) => {
    if (!down.delete(event.pointerId)) return;
    if (down.size > 0) return;
    const tap = event.type === "pointerup" && begun && !begun.moved && !begun.many;
    begun = null;
    if (tap) held.tap(place(event));
  };
  const wheel = (event: WheelEvent) => {
    const camera = held.camera();
    if (!camera) return;
    event.preventDefault();
    const lines = event.deltaMode === 1 ? 33 : 1;
    const factor = 2 ** Math.max(-1, Math.min(1, (-event.deltaY * lines) / (event.ctrlKey ? 100 : 400)));
    held.move(zoomed(camera, held.size(), factor, place(event)));
  };
  element.addEventListener("pointerdown", press);
  element.addEventListener("pointermove", drag);
  element.addEventListener("pointerup", lift);
  element.addEventListener("pointercancel", lift);
  element.addEventListener("wheel", wheel, { passive: false });
  return () => {
    element.removeEventListener("pointerdown", press);
    element.removeEventListener("pointermove", drag);
    element.removeEventListener("pointerup", lift);
    element.removeEventListener("pointercancel", lift);
    element.removeEventListener("wheel", wheel);
  };
}

/** Steps of the keys: a tenth of the board, or four notches closer. */
const PAN_SHARE = 0.1;
const ZOOM_STEP = Math.SQRT2;

/** The camera after a key, or null where the key means nothing here. */
export function keyed(key: string, camera: Camera, size: Size): Camera | null {
  const [dx, dy] = [size[0] * PAN_SHARE, size[1] * PAN_SHARE];
  const middle: Pt = [size[0] / 2, size[1] / 2];
  if (key === "ArrowLeft") return panned(camera, dx, 0);
  if (key === "ArrowRight") return panned(camera, -dx, 0);
  if (key === "ArrowUp") return panned(camera, 0, dy);
  if (key === "ArrowDown") return panned(camera, 0, -dy);
  if (key === "+" || key === "=") return zoomed(camera, size, ZOOM_STEP, middle);
  if (key === "-") return zoomed(camera, size, 1 / ZOOM_STEP, middle);
  return null;
}
