import { useEffect, useMemo, useState } from "preact/hooks";
import { dropCorner, renumber } from "../../../../core/measure/sides.ts";
import {
  type Closing,
  closedWalk,
  closings,
  type Leg,
  markName,
  type Turn,
  walkPoints,
  walkTies,
} from "../../../../core/measure/walk.ts";
import { Choice } from "../../look/choice.tsx";
import { LengthPad } from "../../pad/length-pad.tsx";
import { sayLength } from "../../pad/say.ts";
import type { App } from "../step.ts";
import { DragCorners } from "./drag.tsx";
import { ALL_LAYERS, drawCorners, drawWalk } from "./draw.ts";
import { remember, type Shape, shapeOf, sidesOf } from "./shape.ts";

/** The outline: walked with the tape, or corner by corner once it stands. */
export function Outline({ app }: { app: App }) {
  const walk = app.job["x-measure"]?.walk;
  const shape = shapeOf(app);
  if (walk || (!app.job.site.outline && !app.job.site.marks)) return <Walk app={app} legs={walk ?? NOTHING} />;
  return (
    <>
      <button type="button" class="wide" onClick={() => app.edit("outline", (job) => remember(job, { walk: [] }))}>
        {app.words.measure.outline.startAgain}
      </button>
      {shape && <Corners app={app} shape={shape} />}
    </>
  );
}

function Walk({ app, legs }: { app: App; legs: readonly Leg[] }) {
  const { words, units, job } = app;
  const said = words.measure.outline;
  const [turn, setTurn] = useState<Turn>("left");
  const points = useMemo(() => walkPoints(legs), [legs]);
  const ways = useMemo(() => closings(legs), [legs]);
  const say = (mm: number) => sayLength(words, units, mm);
  useEffect(() => {
    const names = points.map((_, i) => markName(i));
    const figures = legs.map(({ mm }) => say(mm));
    app.view({
      hide: ALL_LAYERS,
      bounds: boundsOf(legs.length > 1 ? [...points, ...(ways[0]?.corners ?? [])] : points),
    });
    app.overlay(drawWalk(points, names, legs.length > 1 ? (ways[0]?.corners ?? []) : [], figures));
  }, [points, ways, units, words]);
  useEffect(() => () => app.view(null), []);
  const add = (mm: number) =>
    app.edit("outline", (next) =>
      remember(next, { walk: [...legs, { mm, turn: legs.length === 0 ? "straight" : turn }] }),
    );
  const close = (way: Closing) =>
    app.edit("outline", (next) => {
      const outline = closedWalk(legs, way);
      const kept = sidesOf(next).length === outline.length ? sidesOf(next) : outline.map(() => "wall" as const);
      next.site.outline = outline;
      delete next.site.marks;
      delete next.site.offsets;
      next.site.sides = kept;
      const ties = walkTies(legs, outline.length);
      if (ties.length > 0) next.survey = { ...next.survey, ties };
      remember(next, { walk: undefined });
    });
  const closeKey = (way: Closing) => (
    <button
      key={way.corners.join()}
      type="button"
      class={way === ways[0] ? "wide do" : "wide"}
      onClick={() => close(way)}
    >
      {way.sides.length === 0
        ? said.closeDone
        : way.square
          ? said.closeSquare(way.sides.map(say).join(", "))
          : said.closeSlant(way.sides.map(say).join(", "))}
    </button>
  );
  const from = markName(legs.length);
  const last = legs[legs.length - 1]?.mm ?? null;
  return (
    <section class="walk">
      {legs.length > 0 && (
        <Choice<Turn>
          label={said.turnQuestion}
          value={turn}
          options={(["left", "straight", "right"] as const).map((way) => [way, said.turn[way]] as const)}
          set={setTurn}
        />
      )}
      {ways.slice(0, 1).map(closeKey)}
      <LengthPad app={app} label={said.side(from, markName(legs.length + 1))} last={last} onNext={add} />
      {ways.slice(1).map(closeKey)}
      <p class="hint">{legs.length > 1 ? said.walked(legs.length) : said.goOn}</p>
      {legs.length > 0 && (
        <button
          type="button"
          class="wide"
          onClick={() => app.edit("outline", (next) => remember(next, { walk: legs.slice(0, -1) as Leg[] }))}
        >
          {said.takeBack}
        </button>
      )}
      {(job.site.outline || job.site.marks) && (
        <button
          type="button"
          class="wide"
          onClick={() => app.edit("outline", (next) => remember(next, { walk: undefined }))}
        >
          {said.keepOld}
        </button>
      )}
    </section>
  );
}

function Corners({ app, shape }: { app: App; shape: Shape }) {
  const said = app.words.measure.outline;
  const [corner, setCorner] = useState(0);
  const [axis, setAxis] = useState<"x" | "y">("x");
  const chosen = Math.min(corner, shape.names.length - 1);
  useEffect(() => {
    app.overlay(drawCorners(shape.names, shape.points, shape.byTapes ? null : chosen));
  }, [app.job, app.record, chosen]);
  const { tapped } = app;
  useEffect(() => {
    if (!tapped) return;
    const away = shape.points.map(([x, y]) => Math.max(Math.abs(x - tapped.at[0]), Math.abs(y - tapped.at[1])));
    const nearest = away.indexOf(Math.min(...away));
    if (away[nearest]! <= tapped.withinMm) setCorner(nearest);
  }, [tapped]);
  if (shape.byTapes)
    return (
      <>
        <p>{said.byTapes}</p>
        <button type="button" class="wide" onClick={() => fixShape(app, shape)}>
          {said.fixShape}
        </button>
      </>
    );
  const at = shape.points[chosen]!;
  const say = (mm: number) => sayLength(app.words, app.units, mm);
  const move = (mm: number) =>
    app.edit("outline", (job) => {
      const vertex = job.site.outline![chosen]!;
      if (axis === "x") vertex[0] = mm;
      else vertex[1] = mm;
    });
  const addCorner = () =>
    app.edit("outline", (job) => {
      const to = shape.points[(chosen + 1) % shape.points.length]!;
      const sides = sidesOf(job);
      job.site.outline!.splice(chosen + 1, 0, [Math.round((at[0] + to[0]) / 2), Math.round((at[1] + to[1]) / 2)]);
      sides.splice(chosen, 0, structuredClone(sides[chosen]!));
      job.site.sides = sides;
      renumber(job, chosen, 1);
    });
  return (
    <section>
      <label class="field">
        <span>{said.corners}</span>
        <select value={String(chosen)} onChange={(event) => setCorner(Number(event.currentTarget.value))}>
          {shape.names.map((name, i) => (
            <option key={name} value={String(i)}>
              {said.corner(name)}: {say(shape.points[i]![0])} / {say(shape.points[i]![1])}
            </option>
          ))}
        </select>
      </label>
      <DragCorners app={app} shape={shape} />
      <Choice<"x" | "y">
        label={said.moveCorner}
        value={axis}
        options={[
          ["x", said.x],
          ["y", said.y],
        ]}
        set={setAxis}
      />
      <LengthPad
        app={app}
        label={`${shape.names[chosen]}, ${axis === "x" ? said.x : said.y}`}
        last={axis === "x" ? at[0] : at[1]}
        minus
        zero
        onNext={move}
      />
      <div class="keys">
        <button type="button" onClick={addCorner}>
          {said.addCorner}
        </button>
        <button
          type="button"
          disabled={shape.names.length < 4}
          onClick={() => app.edit("outline", (job) => void dropCorner(job, chosen))}
        >
          {said.dropCorner}
        </button>
      </div>
    </section>
  );
}

const NOTHING: readonly Leg[] = [];

/** Room for what is walked, and for a next side. */
function boundsOf(points: readonly (readonly [number, number])[]) {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [x0, y0] = [Math.min(...xs), Math.min(...ys)];
  return { x0, y0, x1: Math.max(...xs, x0 + 2000), y1: Math.max(...ys, y0 + 1500) };
}

/** The shape as the tapes give it becomes coordinates; the tapes stay as a record. */
function fixShape(app: App, shape: Shape): void {
  app.edit("outline", (job) => {
    job.site.outline = shape.points.map(([x, y]) => [Math.round(x * 10) / 10, Math.round(y * 10) / 10]);
    delete job.site.marks;
    const names = new Map(shape.names.map((name, i) => [name, markName(i)]));
    const ties = job.survey?.ties as [string, string, number][] | undefined;
    if (ties) job.survey!.ties = ties.map(([a, b, mm]) => [names.get(a) ?? a, names.get(b) ?? b, mm]);
  });
}
