import { useEffect, useMemo, useState } from "preact/hooks";
import type { DraftVertex } from "../../../../core/edits/draft.ts";
import { nextPoint, proposeGrid, readStaff } from "../../../../core/measure/levels.ts";
import { bulgedPoints } from "../../../../core/measure/sides.ts";
import type { Pt } from "../../../../papers/sheet.ts";
import type { AppWords } from "../../../../words/app.ts";
import { Choice } from "../../look/choice.tsx";
import { LengthPad } from "../../pad/length-pad.tsx";
import { Pad, type PadRead } from "../../pad/pad.tsx";
import { sayLength, sayMm } from "../../pad/say.ts";
import type { App } from "../step.ts";
import { drawGrid } from "./draw.ts";
import { useQuiet } from "./quiet.ts";
import { remember, type Shape, shapeOf } from "./shape.ts";
import { Straightedges } from "./straightedges.tsx";

type Level = [x: number, y: number, z: number];
const SPACINGS = ["500", "750", "1000", "1500"] as const;
/** A reading within this of a grid point is that point's. */
const NEAR_MM = 60;

/** Levels: the grid proposes the next point; a staff reading and Next, point after point. */
export function Levels({ app }: { app: App }) {
  useQuiet(app);
  const shape = shapeOf(app);
  const [edge, setEdge] = useState(false);
  const said = app.words.measure.levels;
  if (!shape) return <p>{app.words.measure.things.needShape}</p>;
  return (
    <section>
      {edge ? <Straightedges app={app} shape={shape} /> : <Grid app={app} shape={shape} />}
      <button type="button" class="wide" aria-pressed={edge} onClick={() => setEdge(!edge)}>
        {said.straightedge}
      </button>
    </section>
  );
}

function Grid({ app, shape }: { app: App; shape: Shape }) {
  const { words, units, job, tapped } = app;
  const said = words.measure.levels;
  const memory = job["x-measure"] ?? {};
  const [way, setWay] = useState<"staff" | "height">("staff");
  const levels = (job.survey?.levels ?? []) as Level[];
  const spacing = memory.spacing ?? 1000;
  const grid = useMemo(() => {
    const holes = (job.site.cutouts ?? []).map(({ ring }) => bulgedPoints((ring ?? []) as DraftVertex[]));
    return proposeGrid(shape.ring, holes, spacing);
  }, [job.site, app.record, spacing]);
  const proposed = nextPoint(grid, levels, NEAR_MM);
  const own: Pt | null = tapped ? [Math.round(tapped.at[0] / 10) * 10, Math.round(tapped.at[1] / 10) * 10] : null;
  const next = own ?? proposed;
  useEffect(() => app.overlay(drawGrid(grid, next)), [grid, next?.[0], next?.[1]]);
  const say = (mm: number) => sayLength(words, units, mm);
  const place = (at: Pt) => `${say(at[0])} / ${say(at[1])}`;
  const last = levels[levels.length - 1]?.[2] ?? null;
  const put = (z: number) => {
    if (!next) return;
    const at: Level = [next[0], next[1], Math.round(z * 10) / 10];
    app.edit("levels", (draft) => {
      const others = levels.filter(([x, y]) => Math.abs(x - at[0]) > 1 || Math.abs(y - at[1]) > 1);
      draft.survey = { ...draft.survey, levels: [...others, at] };
    });
    app.untap();
  };
  const needsBench = way === "staff" && memory.instrument === undefined;
  return (
    <>
      <p class="point" role="status">
        {next ? said.nextPoint(place(next), levels.length, Math.max(grid.length, levels.length + 1)) : said.allRead}
      </p>
      {own && <p class="hint">{said.elsewhere}</p>}
      {needsBench ? (
        <>
          <p class="hint">{said.instrumentHint}</p>
          <LengthPad
            key="bench"
            app={app}
            label={said.benchReading}
            onNext={(mm) => app.edit("levels", (draft) => remember(draft, { instrument: mm }))}
          />
        </>
      ) : way === "staff" ? (
        <StaffPad words={words} instrument={memory.instrument!} lastZ={last} onNext={put} />
      ) : (
        <LengthPad key="height" app={app} label={said.heightOf} minus zero last={last} onNext={put} />
      )}
      {levels.length > 0 && (
        <button
          type="button"
          class="wide"
          onClick={() =>
            app.edit("levels", (draft) => {
              draft.survey = { ...draft.survey, levels: levels.slice(0, -1) };
            })
          }
        >
          {said.takeBack}
        </button>
      )}
      <Choice<"staff" | "height">
        label={said.way}
        value={way}
        options={[
          ["staff", said.staff],
          ["height", said.height],
        ]}
        set={setWay}
      />
      {way === "staff" && memory.instrument !== undefined && (
        <button
          type="button"
          class="wide figure"
          onClick={() => app.edit("levels", (draft) => remember(draft, { instrument: undefined }))}
        >
          <span>{said.instrument}</span>
          <span>{sayMm(words, memory.instrument)}</span>
        </button>
      )}
      <Choice
        label={said.spacing}
        value={String(spacing) as (typeof SPACINGS)[number]}
        options={SPACINGS.map((mm) => [mm, say(Number(mm))] as const)}
        set={(mm) => app.edit("levels", (draft) => remember(draft, { spacing: Number(mm) }))}
      />
      <List app={app} levels={levels} place={place} />
    </>
  );
}

function StaffPad(props: { words: AppWords; instrument: number; lastZ: number | null; onNext(z: number): void }) {
  const { words, instrument, lastZ, onNext } = props;
  const said = words.measure.levels;
  const [text, setText] = useState("");
  const staff = readStaff(text, lastZ === null ? instrument : instrument - lastZ);
  const level = (z: number) =>
    Math.abs(z) < 0.05 ? said.level : z > 0 ? said.above(sayMm(words, z)) : said.below(sayMm(words, -z));
  const read: PadRead = staff.ok
    ? { value: instrument - staff.mm, says: said.staffSays(sayMm(words, staff.mm), level(instrument - staff.mm)) }
    : {
        value: null,
        says:
          staff.why === "ambiguous"
            ? said.staffTwo(sayMm(words, staff.readings[0]!), sayMm(words, staff.readings[1]!))
            : staff.why === "unclear"
              ? said.staffUnclear
              : "",
      };
  return (
    <Pad
      words={words}
      label={said.reading}
      text={text}
      setText={setText}
      read={read}
      minus={false}
      extra={[]}
      last={lastZ === null ? null : { value: lastZ, says: sayMm(words, instrument - lastZ) }}
      onNext={(z) => {
        setText("");
        onNext(z);
      }}
    />
  );
}

const SHOWN = 60;
function List({ app, levels, place }: { app: App; levels: readonly Level[]; place(at: Pt): string }) {
  const { words } = app;
  const said = words.measure.levels;
  if (levels.length === 0) return null;
  return (
    <details>
      <summary>{said.list(levels.length)}</summary>
      <ul class="plain list">
        {levels
          .map((level, index) => ({ level, index }))
          .slice(-SHOWN)
          .reverse()
          .map(({ level: [x, y, z], index }) => (
            <li key={index}>
              <button type="button" class="to" onClick={() => app.show([x, y])}>
                {place([x, y])}
              </button>
              <span>{sayMm(words, z)}</span>
              <button
                type="button"
                aria-label={said.remove(place([x, y]))}
                onClick={() => app.edit("levels", (job) => void job.survey!.levels!.splice(index, 1))}
              >
                {"\u00d7"}
              </button>
            </li>
          ))}
      </ul>
    </details>
  );
}
