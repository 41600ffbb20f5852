import { useEffect, useMemo, useState } from "preact/hooks";
import type { DraftVertex, JobDraft } from "../../../../core/edits/draft.ts";
import type { EditName } from "../../../../core/edits/edit.ts";
import { insideRing } from "../../../../core/measure/levels.ts";
import { placeRing } from "../../../../core/measure/place.ts";
import { bulgedPoints } from "../../../../core/measure/sides.ts";
import type { ThingKind } from "../../../../words/app/measure.ts";
import { Choice } from "../../look/choice.tsx";
import { LengthPad } from "../../pad/length-pad.tsx";
import { sayLength } from "../../pad/say.ts";
import type { App } from "../step.ts";
import { drawChosenSide, drawCorners, drawRing } from "./draw.ts";
import { useQuiet } from "./quiet.ts";
import { type Shape, shapeOf } from "./shape.ts";

const KINDS: readonly ThingKind[] = ["post", "gully", "noDrill", "keepClear", "loose"];
type Named = { name?: string; ring?: DraftVertex[]; height?: "tall" | "flush" | "removable" };
const FIGURES = ["from", "to", "along", "deep"] as const;

/** Posts, gullies and areas, placed by distances from two walls. */
export function Things({ app }: { app: App }) {
  useQuiet(app);
  const shape = shapeOf(app);
  const { words, job } = app;
  const said = words.measure.things;
  const [adding, setAdding] = useState<ThingKind | null>(null);
  useEffect(() => {
    if (shape && !adding) app.overlay(drawCorners(shape.names, shape.points));
  }, [job, app.record, adding]);
  if (!shape) return <p>{said.needShape}</p>;
  const things = listOf(job);
  return (
    <section>
      {adding ? (
        <Place app={app} shape={shape} kind={adding} done={() => setAdding(null)} />
      ) : (
        <div class="keys">
          {KINDS.map((kind) => (
            <button key={kind} type="button" onClick={() => setAdding(kind)}>
              {said.add[kind]}
            </button>
          ))}
        </div>
      )}
      {things.length === 0 ? (
        <p class="hint">{said.none}</p>
      ) : (
        <ul class="plain list">
          {things.map(({ kind, index, thing }) => (
            <li key={`${kind} ${index}`}>
              <button
                type="button"
                class="to"
                onClick={() => thing.ring?.[0] && app.show([thing.ring[0][0], thing.ring[0][1]])}
              >
                {thing.name ?? said.kinds[kind]}
              </button>
              <span>{said.kinds[kind]}</span>
              <button
                type="button"
                aria-label={said.remove(thing.name ?? said.kinds[kind])}
                onClick={() => app.edit(editOf(kind), (next) => void shelf(next, kind).splice(index, 1))}
              >
                {"\u00d7"}
              </button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function Place({ app, shape, kind, done }: { app: App; shape: Shape; kind: ThingKind; done(): void }) {
  const { words, units, tapped } = app;
  const said = words.measure.things;
  const n = shape.names.length;
  const [walls, setWalls] = useState<[number, number]>([0, n - 1]);
  const [round, setRound] = useState(false);
  const [figures, setFigures] = useState<number[]>([]);
  const [outside, setOutside] = useState(false);
  const asked = round ? FIGURES.slice(0, 3) : FIGURES;
  const at = asked[figures.length] ?? "from";
  useEffect(() => {
    if (!tapped) return;
    const away = shape.points.map(([x, y]) => Math.max(Math.abs(x - tapped.at[0]), Math.abs(y - tapped.at[1])));
    const corner = away.indexOf(Math.min(...away));
    setWalls([corner, (corner + n - 1) % n]);
  }, [tapped]);
  const wallName = (side: number) => `${shape.names[side]}\u2013${shape.names[(side + 1) % n]}`;
  const ringOf = (list: readonly number[]) =>
    placeRing(shape.vertices, {
      fromSide: walls[0],
      from: list[0] ?? 0,
      toSide: walls[1],
      to: list[1] ?? 0,
      along: list[2] ?? 200,
      deep: list[3] ?? list[2] ?? 200,
      round,
    });
  const ring = useMemo(() => ringOf(figures), [figures, walls, round, shape.vertices]);
  useEffect(() => {
    const sides = walls.flatMap((side) => drawChosenSide(shape.points[side]!, shape.points[(side + 1) % n]!));
    app.overlay([...sides, ...drawCorners(shape.names, shape.points), ...(ring ? [drawRing(bulgedPoints(ring))] : [])]);
  }, [ring, walls, app.job, app.record]);
  const labels: Record<(typeof FIGURES)[number], string> = {
    from: `${said.distance} ${said.fromWall.toLowerCase()} ${wallName(walls[0])}`,
    to: `${said.distance} ${said.fromWall.toLowerCase()} ${wallName(walls[1])}`,
    along: round ? said.across : said.along,
    deep: said.deep,
  };
  const next = (mm: number) => {
    const list = [...figures, mm];
    setOutside(false);
    if (list.length < asked.length) return setFigures(list);
    const placed = ringOf(list);
    const flat = placed ? bulgedPoints(placed) : [];
    if (!placed || !flat.some((point) => insideRing(shape.ring, point))) {
      setFigures([]);
      return setOutside(true);
    }
    app.edit(editOf(kind), (job) => {
      const things = shelf(job, kind);
      const thing: Named = { name: `${said.kinds[kind]} ${things.length + 1}`, ring: placed };
      if (kind === "post") thing.height = "tall";
      if (kind === "gully") thing.height = "removable";
      things.push(thing);
    });
    done();
  };
  return (
    <section>
      <div class="pair">
        {[said.fromWall, said.toWall].map((label, which) => (
          <label key={label} class="field">
            <span>{label}</span>
            <select
              value={String(walls[which])}
              onChange={(event) => {
                const side = Number(event.currentTarget.value);
                setWalls(which === 0 ? [side, walls[1]] : [walls[0], side]);
              }}
            >
              {shape.names.map((name, side) => (
                <option key={name} value={String(side)}>
                  {wallName(side)}
                </option>
              ))}
            </select>
          </label>
        ))}
      </div>
      {(kind === "post" || kind === "gully") && (
        <Choice
          label={said.shape}
          value={round ? "round" : "square"}
          options={[
            ["square", said.square],
            ["round", said.round],
          ]}
          set={(value) => {
            setRound(value === "round");
            setFigures([]);
          }}
        />
      )}
      {ring ? (
        <LengthPad
          key={at}
          app={app}
          label={labels[at]}
          zero={at === "from" || at === "to"}
          last={figures[figures.length - 1] ?? null}
          onNext={next}
        />
      ) : (
        <p role="alert">{said.sameWay}</p>
      )}
      {outside && <p role="alert">{said.outside}</p>}
      <p class="hint">
        {figures.length === 0
          ? said.hint
          : figures.map((mm, i) => `${labels[asked[i]!]}: ${sayLength(words, units, mm)}`).join(". ")}
      </p>
      <button type="button" class="wide" onClick={done}>
        {words.shell.close}
      </button>
    </section>
  );
}

function editOf(kind: ThingKind): EditName {
  return kind === "post" || kind === "gully" ? "cutouts" : "areas";
}

/** The list a kind of thing is kept in, made where there is none. */
function shelf(job: JobDraft, kind: ThingKind): Named[] {
  const name = kind === "post" || kind === "gully" ? "cutouts" : kind;
  const site = job.site as unknown as Record<string, Named[] | undefined>;
  site[name] ??= [];
  return site[name];
}

function listOf(job: JobDraft): { kind: ThingKind; index: number; thing: Named }[] {
  const out: { kind: ThingKind; index: number; thing: Named }[] = [];
  job.site.cutouts?.forEach((thing, index) => {
    out.push({ kind: thing.height === "removable" ? "gully" : "post", index, thing: thing as Named });
  });
  for (const kind of ["noDrill", "keepClear", "loose"] as const)
    job.site[kind]?.forEach((thing, index) => {
      out.push({ kind, index, thing: thing as Named });
    });
  return out;
}
