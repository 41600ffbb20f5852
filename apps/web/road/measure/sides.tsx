import { useEffect, useState } from "preact/hooks";
import type { DraftSide, JobDraft } from "../../../../core/edits/draft.ts";
import type { SideKind } from "../../../../core/job/job.ts";
import { bulgeOf } from "../../../../core/measure/place.ts";
import { nearestSide, partSide } from "../../../../core/measure/sides.ts";
import { Choice } from "../../look/choice.tsx";
import { LengthPad } from "../../pad/length-pad.tsx";
import { sayLength } from "../../pad/say.ts";
import type { App } from "../step.ts";
import { drawChosenSide, drawCorners } from "./draw.ts";
import { useQuiet } from "./quiet.ts";
import { type Shape, shapeOf, sideLength, sidesOf } from "./shape.ts";

const KINDS: readonly SideKind[] = ["wall", "door", "kerb", "open", "outlet", "pool"];
type Figure = "sill" | "leafClear" | "gap" | "arc" | "partFrom";
type SideWritten = Exclude<DraftSide, string>;

/** What stands along each side, and the figures that go with it. */
export function Sides({ app }: { app: App }) {
  const shape = shapeOf(app);
  if (!shape) return <p>{app.words.measure.things.needShape}</p>;
  return <SidesOf app={app} shape={shape} />;
}

function SidesOf({ app, shape }: { app: App; shape: Shape }) {
  useQuiet(app);
  const { words, units, job, tapped } = app;
  const said = words.measure.sides;
  const n = shape.points.length;
  const [picked, setPicked] = useState(0);
  const [figure, setFigure] = useState<Figure | null>(null);
  const side = Math.min(picked, n - 1);
  const pick = (next: number) => {
    setPicked((next + n) % n);
    setFigure(null);
  };
  useEffect(() => {
    if (!tapped) return;
    const { side: near, away } = nearestSide(shape.points, tapped.at);
    if (away <= tapped.withinMm) pick(near);
  }, [tapped]);
  useEffect(() => {
    app.overlay([
      ...drawChosenSide(shape.points[side]!, shape.points[(side + 1) % n]!),
      ...drawCorners(shape.names, shape.points),
    ]);
  }, [job, app.record, side]);
  const written = writtenSide(job, side);
  const say = (mm: number) => sayLength(words, units, mm);
  const change = (what: (one: SideWritten) => void) =>
    app.edit("sides", (next) => {
      const sides = sidesOf(next);
      const one = writtenSide(next, side);
      what(one);
      sides[side] = Object.keys(one).length === 1 ? one.kind : one;
      next.site.sides = sides;
    });
  const [from, to] = [shape.names[side]!, shape.names[(side + 1) % n]!];
  const bulge = shape.vertices[side]![2] ?? 0;
  const length = sideLength(shape, side);
  const figures: [Figure, string, string][] = [];
  if (written.kind === "door") {
    figures.push(["sill", said.sill, written.sill == null ? said.notSaid : say(written.sill)]);
    figures.push(["leafClear", said.leafClear, written.leafClear == null ? said.notSaid : say(written.leafClear)]);
  }
  figures.push(["gap", said.gap, written.gap == null ? said.gapUsual : say(written.gap)]);
  if (!shape.byTapes) {
    figures.push(["arc", said.arc, say((Math.abs(bulge) * length) / 2)]);
    figures.push(["partFrom", said.part, ""]);
  }
  return (
    <section>
      <div class="stepper">
        <button type="button" aria-label={said.previous} onClick={() => pick(side - 1)}>
          {"\u2190"}
        </button>
        <p aria-live="polite">{said.side(from, to, say(length))}</p>
        <button type="button" aria-label={said.next} onClick={() => pick(side + 1)}>
          {"\u2192"}
        </button>
      </div>
      <Choice
        label={said.kind}
        value={written.kind}
        options={KINDS.map((kind) => [kind, said.kinds[kind]] as const)}
        set={(kind) =>
          change((one) => {
            one.kind = kind;
            if (kind === "door") return;
            delete one.sill;
            delete one.opens;
            delete one.leafClear;
          })
        }
      />
      {written.kind === "door" && (
        <Choice
          label={said.opens}
          value={written.opens ?? "not"}
          options={[
            ["in", said.opensIn],
            ["out", said.opensOut],
            ["not", said.opensNot],
          ]}
          set={(opens) =>
            change((one) => {
              if (opens === "not") delete one.opens;
              else one.opens = opens;
            })
          }
        />
      )}
      <div class="figures">
        {figures.map(([name, label, value]) => (
          <button
            key={name}
            type="button"
            aria-pressed={figure === name}
            onClick={() => setFigure(figure === name ? null : name)}
          >
            <span>{label}</span>
            <span>{value}</span>
          </button>
        ))}
      </div>
      {(figure === "sill" || figure === "leafClear" || figure === "gap") && (
        <LengthPad
          key={figure}
          app={app}
          label={said[figure]}
          zero
          minus={figure === "sill"}
          onNext={(mm) => {
            change((one) => {
              one[figure] = mm;
            });
            setFigure(null);
          }}
        />
      )}
      {figure === "arc" && <Arc app={app} shape={shape} side={side} done={() => setFigure(null)} />}
      {figure === "partFrom" && <Part app={app} shape={shape} side={side} done={() => setFigure(null)} />}
      {shape.byTapes && <p class="hint">{said.noTapesHere}</p>}
      {figure === null && <p class="hint">{said.hint}</p>}
    </section>
  );
}

function Arc({ app, shape, side, done }: { app: App; shape: Shape; side: number; done(): void }) {
  const said = app.words.measure.sides;
  const [tooHigh, setTooHigh] = useState(false);
  const chord = sideLength(shape, side);
  const bend = (mm: number) => {
    const bulge = bulgeOf(shape.vertices, chord, mm);
    if (bulge === null) return setTooHigh(true);
    app.edit("outline", (job) => {
      const vertex = job.site.outline![side]!;
      job.site.outline![side] = bulge === 0 ? [vertex[0], vertex[1]] : [vertex[0], vertex[1], bulge];
    });
    done();
  };
  return (
    <>
      <p class="hint">{said.arcHint}</p>
      <LengthPad app={app} label={said.arc} minus zero onNext={bend} />
      {tooHigh && <p role="alert">{said.arcTooHigh(sayLength(app.words, app.units, chord / 2))}</p>}
      <button type="button" class="wide" onClick={() => bend(0)}>
        {said.straight}
      </button>
    </>
  );
}

/** A door in the middle of a wall: where it begins, how wide it is, what it is. */
function Part({ app, shape, side, done }: { app: App; shape: Shape; side: number; done(): void }) {
  const { words, units } = app;
  const said = words.measure.sides;
  const [kind, setKind] = useState<SideKind>("door");
  const [from, setFrom] = useState<number | null>(null);
  const [past, setPast] = useState(false);
  const length = sideLength(shape, side);
  const part = (wide: number) => {
    if (from === null || from + wide > length + 0.5) return setPast(true);
    app.edit("sides", (job) => void partSide(job, side, from, wide, kind));
    done();
  };
  return (
    <>
      <Choice<SideKind>
        label={said.partKind}
        value={kind}
        options={KINDS.map((one) => [one, said.kinds[one]] as const)}
        set={setKind}
      />
      {from === null ? (
        <LengthPad
          key="from"
          app={app}
          label={`${said.partFrom} (${said.partHint(shape.names[side]!)})`}
          zero
          onNext={setFrom}
        />
      ) : (
        <LengthPad key="wide" app={app} label={said.partWide} onNext={part} />
      )}
      {past && <p role="alert">{said.partTooLong(sayLength(words, units, length))}</p>}
    </>
  );
}

function writtenSide(job: JobDraft, side: number): SideWritten {
  const one = sidesOf(job)[side] ?? "wall";
  return typeof one === "string" ? { kind: one } : { ...one };
}
