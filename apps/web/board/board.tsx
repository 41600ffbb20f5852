import "./board.css";
import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { PlanRecord } from "../../../core/plan/record.ts";
import type { Item, Layer, Pt } from "../../../papers/sheet.ts";
import type { BoardWords } from "../../../words/app/board.ts";
import type { DrawingName, SaidFinding } from "../desk/asks.ts";
import { type Bounds, type Camera, fitCamera, pxPerMm, type Size, toScreen, toSitePoint, zoomed } from "./camera.ts";
import { keyed, takeHands } from "./hands.ts";
import type { Hit } from "./hit.ts";
import { prepare } from "./paint.ts";
import { NEAR_PX, type Pickable, pick, pieceAt } from "./pick.ts";
import { rowsOf } from "./rows.ts";
import { layersOf, paintRing, paintScene, type Scene } from "./scene.ts";
import { type Tones, tonesOf } from "./tones.ts";
import { beside, next, placeOf } from "./walk.ts";

export interface BoardProps {
  /** What is drawn from the plan: the open step's layer. */
  draws: DrawingName;
  /** Site millimetres; sized for the paper scale they were made at. */
  items: readonly Item[];
  overlay: readonly Item[] | null;
  /** Layers left away. */
  hide: readonly Layer[];
  record: PlanRecord | null;
  /** True while `record` is a trial: figures of the plan before it are left off. */
  trial: boolean;
  findings: readonly SaidFinding[];
  picked: Hit | null;
  /** The site: what "whole" shows. */
  bounds: Bounds;
  /** Null: the whole site. */
  camera: Camera | null;
  /** The board's camera, also after it fitted the whole: the app asks for items of its scale. */
  onCamera(camera: Camera, moved: boolean): void;
  onWhole(): void;
  onTap(at: Pt, withinMm: number, hit: Hit | null): void;
  /** Nothing is picked any more. */
  onLeave(): void;
  words: BoardWords;
  /** Said to those who do not see the drawing. */
  label: string;
  /** Changes when colours change. */
  ground: string;
}
/** The app hears of the camera when it has come to rest for this long. */
const REST_MS = 140;

/** The drawing: panned, zoomed, tapped and walked by keys. It paints from its own camera; the app hears where it came to rest. */
export function Board(props: BoardProps) {
  const { draws, items, overlay, record, trial, findings, picked, bounds, camera, words, label, ground } = props;
  const canvas = useRef<HTMLCanvasElement>(null);
  const [size, setSize] = useState<Size>([0, 0]);
  const live = useRef<Camera | null>(null);
  const latest = useRef(props);
  latest.current = props;
  const tones = useRef<Tones | null>(null);
  const rows = useMemo(() => record && rowsOf(record), [record]);
  const fromRows = draws === "setout" || draws === "fixing";
  const withBoards = fromRows && !props.hide.includes("boards");
  const layers = useMemo(() => layersOf(items, fromRows), [items, fromRows]);
  const prepared = useMemo(() => prepare(overlay ?? []), [overlay]);
  const scene: Scene = {
    ...layers,
    ...(trial ? { figures: [], over: layers.over.filter(({ item }) => item.layer !== "datum") } : {}),
    ...(trial ? { under: [] } : {}),
    overlay: prepared,
    rows,
    boards: withBoards ? (draws === "fixing" ? "pale" : "full") : "none",
    clips: draws === "fixing" && !props.hide.includes("clips") && (record?.site.drillingReleased ?? false),
    findings: trial ? [] : findings,
    picked,
  };
  const what: Pickable = {
    rows,
    findings: scene.findings,
    pieces: withBoards,
    clips: scene.clips,
    levels: draws === "survey" || draws === "base",
  };
  const now = useRef({ scene, what, size });
  now.current = { scene, what, size };
  const frame = useRef(0);
  const rest = useRef<ReturnType<typeof setTimeout> | undefined>(undefined);

  const paintSoon = () => {
    if (frame.current) return;
    frame.current = requestAnimationFrame(() => {
      frame.current = 0;
      const element = canvas.current;
      if (!element || !live.current) return;
      const [width, height] = now.current.size;
      const ratio = window.devicePixelRatio;
      if (element.width !== Math.round(width * ratio)) element.width = Math.round(width * ratio);
      if (element.height !== Math.round(height * ratio)) element.height = Math.round(height * ratio);
      const pen = element.getContext("2d", { alpha: false })!;
      tones.current ??= tonesOf(element);
      paintScene(pen, now.current.scene, live.current, now.current.size, tones.current);
      const hit = now.current.scene.picked;
      const at = hit && hit.kind !== "piece" && hit.kind !== "finding" ? placeOf(hit, now.current.what.rows, []) : null;
      if (at) paintRing(pen, toScreen(live.current, now.current.size, at), tones.current);
    });
  };
  const move = (to: Camera) => {
    live.current = to;
    paintSoon();
    clearTimeout(rest.current);
    rest.current = setTimeout(() => live.current && latest.current.onCamera(live.current, true), REST_MS);
  };
  const whole = () => {
    clearTimeout(rest.current);
    live.current = fitCamera(bounds, size[0], size[1]);
    latest.current.onWhole();
    latest.current.onCamera(live.current, false);
    paintSoon();
  };
  const choose = (hit: Hit | null, follow: boolean) => {
    const at = hit && placeOf(hit, now.current.what.rows, now.current.what.findings);
    if (!hit || !at || !live.current) return latest.current.onLeave();
    latest.current.onTap(at, NEAR_PX / pxPerMm(live.current), hit);
    if (follow) move({ ...live.current, at: towards(live.current, now.current.size, at) });
  };

  useEffect(() => {
    const element = canvas.current!;
    const watch = new ResizeObserver(() => setSize([element.clientWidth, element.clientHeight]));
    watch.observe(element);
    const letGo = takeHands(element, {
      camera: () => live.current,
      size: () => now.current.size,
      move,
      tap: (on) => {
        const at = toSitePoint(live.current!, now.current.size, on);
        const hit = pick(now.current.what, on, live.current!, now.current.size);
        latest.current.onTap(at, NEAR_PX / pxPerMm(live.current!), hit);
      },
    });
    return () => {
      watch.disconnect();
      letGo();
      clearTimeout(rest.current);
      cancelAnimationFrame(frame.current);
    };
  }, []);
  const fitted = camera ?? (size[0] > 0 ? fitCamera(bounds, size[0], size[1]) : null);
  useEffect(() => {
    if (!fitted) return;
    clearTimeout(rest.current);
    live.current = fitted;
    latest.current.onCamera(fitted, false);
  }, [fitted?.scale, fitted?.at[0], fitted?.at[1]]);
  useEffect(() => {
    tones.current = null;
  }, [ground]);
  useEffect(paintSoon);

  const onKey = (event: KeyboardEvent) => {
    const here = live.current;
    if (!here || event.ctrlKey || event.metaKey || event.altKey) return;
    const { rows: known, findings: said } = now.current.what;
    const stop = () => event.preventDefault();
    if (picked && event.key === "Tab") {
      stop();
      return choose(next(picked, event.shiftKey ? -1 : 1, what.pieces ? known : null, said), true);
    }
    const way = WAYS[event.key];
    if (picked?.kind === "piece" && known && way) {
      stop();
      const to = beside(known, picked.index, way);
      return to ? choose(to, true) : undefined;
    }
    if (event.key === "Escape" && picked) {
      stop();
      return latest.current.onLeave();
    }
    if (event.key === "Enter" || event.key === " ") {
      stop();
      const middle = known && what.pieces ? pieceAt(known, here.at) : null;
      return choose(middle !== null ? { kind: "piece", index: middle } : next(null, 1, known, said), false);
    }
    if (event.key === "0") {
      stop();
      return whole();
    }
    const to = keyed(event.key, here, size);
    if (!to) return;
    stop();
    move(to);
  };
  const closer = (factor: number) =>
    live.current && move(zoomed(live.current, size, factor, [size[0] / 2, size[1] / 2]));
  return (
    <>
      {/* biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: the drawing is walked by keys of its own */}
      <canvas
        class="board"
        ref={canvas}
        tabIndex={0}
        role="application"
        aria-roledescription={words.drawing}
        aria-label={label}
        aria-describedby="board-keys"
        onKeyDown={onKey}
      />
      <p id="board-keys" class="unseen">
        {words.keys}
      </p>
      <div class="board-buttons">
        <button type="button" aria-label={words.closer} onClick={() => closer(Math.SQRT2)}>
          <Stroke plus />
        </button>
        <button type="button" aria-label={words.farther} onClick={() => closer(Math.SQRT1_2)}>
          <Stroke plus={false} />
        </button>
        <button type="button" aria-label={words.whole} onClick={whole}>
          <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
            <path d="M2 7V2H7M13 2H18V7M18 13V18H13M7 18H2V13" />
          </svg>
        </button>
      </div>
    </>
  );
}

const WAYS: Record<string, "left" | "right" | "up" | "down"> = {
  ArrowLeft: "left",
  ArrowRight: "right",
  ArrowUp: "up",
  ArrowDown: "down",
};

function Stroke({ plus }: { plus: boolean }) {
  return (
    <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
      <path d={plus ? "M10 3V17M3 10H17" : "M3 10H17"} />
    </svg>
  );
}

/** Moves the camera only as far as brings a place well into view. */
function towards(camera: Camera, size: Size, at: Pt): Pt {
  const [x, y] = toScreen(camera, size, at);
  const edge = 60;
  const inView = x > edge && y > edge && x < size[0] - edge && y < size[1] - edge;
  return inView ? camera.at : at;
}
