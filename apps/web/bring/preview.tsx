import { useEffect, useMemo, useState } from "preact/hooks";
import type { Answers, AskName, BringRead, Brought, Refusal } from "../../../core/bring/brought.ts";
import { openAsks, type Settled, settle, takeInto } from "../../../core/bring/settle.ts";
import { bulgedPoints } from "../../../core/measure/sides.ts";
import { mark, polygon, stroke } from "../../../papers/ink.ts";
import type { Item } from "../../../papers/sheet.ts";
import { Choice } from "../look/choice.tsx";
import { sayLength } from "../pad/say.ts";
import { ALL_LAYERS } from "../road/measure/draw.ts";
import type { App } from "../road/step.ts";

export interface PreviewProps {
  app: App;
  name: string;
  text: string;
  refuse(why: Refusal, detail: string): void;
  done(): void;
}
const WIDEST_MM = 1_000_000;
const DRAWN = 4_000;
const UNITS = ["mm", "cm", "m", "in", "ft", "ftUs", "deg"] as const;

/** What a file holds and leaves out, what it does not say, and what would be taken. Nothing is taken before the button. */
export function Preview({ app, name, text, refuse, done }: PreviewProps) {
  const { words, units } = app;
  const said = words.bring;
  const [answers, setAnswers] = useState<Partial<Answers>>({});
  const [read, setRead] = useState<(BringRead & { ok: true }) | null>(null);
  const [levels, setLevels] = useState(true);
  const [ring, setRing] = useState<number | null>(null);
  useEffect(() => {
    let here = true;
    // The readers are loaded with the first file.
    void import("../../../core/bring/read.ts").then(({ readBring }) => {
      if (!here) return;
      const answer = readBring(text, name, answers);
      if (answer.ok) setRead(answer);
      else refuse(answer.why, answer.detail);
    });
    return () => {
      here = false;
    };
  }, [text, answers.decimal]);
  const brought = read?.brought ?? null;
  const settled = useMemo(() => brought && settle(brought, answers), [brought, answers]);
  const wide = settled?.box ? Math.max(settled.box.x1 - settled.box.x0, settled.box.y1 - settled.box.y0) : 0;
  const tooWide = wide > WIDEST_MM;
  useEffect(() => {
    if (!settled?.box || tooWide) return;
    app.view({ hide: ALL_LAYERS, bounds: settled.box });
    app.overlay(drawn(settled, ring, levels));
  }, [settled, ring, levels]);
  useEffect(
    () => () => {
      app.view(null);
      app.overlay(null);
    },
    [],
  );
  if (!brought) return <p role="status">{words.shell.working(said.found(name))}</p>;
  const say = (mm: number) => sayLength(words, units, mm);
  const heights = brought.points.filter(({ h }) => h !== null).length;
  const missing = openAsks(brought, answers);
  const answer = (change: Partial<Answers>) => setAnswers({ ...answers, ...change });
  const take = () => {
    app.edit("import", (job) => takeInto(job, settled!, { levels: levels && heights > 0, ring }));
    done();
  };
  const taking = ring !== null || (levels && heights > 0);
  return (
    <section class="bring">
      <h3>{said.found(name)}</h3>
      <Holds brought={brought} words={words} heights={heights} />
      {brought.asks.map((ask) => (
        <Ask key={ask} ask={ask} app={app} answers={answers} brought={brought} answer={answer} />
      ))}
      {missing.length > 0 && <p role="status">{said.mustAnswer}</p>}
      {settled?.box && (
        <p role="status">
          {tooWide
            ? said.tooWide(say(wide))
            : said.spans(say(settled.box.x1 - settled.box.x0), say(settled.box.y1 - settled.box.y0))}
        </p>
      )}
      {settled && !tooWide && (
        <>
          {settled.shift.some((mm) => mm !== 0) && <p>{said.shifted(say(settled.shift[0]), say(settled.shift[1]))}</p>}
          {heights > 0 && (
            <label class="tick">
              <input type="checkbox" checked={levels} onChange={(event) => setLevels(event.currentTarget.checked)} />
              <span>
                {said.takeLevels(heights)}, {levelRange(app, settled)}
              </span>
            </label>
          )}
          {settled.rings.length > 0 && (
            <label class="field">
              <span>{said.takeOutline}</span>
              <select
                value={String(ring ?? "")}
                onChange={({ currentTarget: { value } }) => setRing(value === "" ? null : Number(value))}
              >
                <option value="">{said.noOutline}</option>
                {settled.rings.slice(0, 200).map(({ name: layer, vertices }, i) => (
                  <option key={i} value={String(i)}>
                    {said.outlineChoice(layer || String(i + 1), vertices.length, sizeOf(app, vertices))}
                  </option>
                ))}
              </select>
            </label>
          )}
          <button type="button" class="wide do" disabled={!taking} onClick={take}>
            {said.take}
          </button>
        </>
      )}
      <button type="button" class="wide" onClick={done}>
        {said.putBack}
      </button>
    </section>
  );
}

function Holds({ brought, words, heights }: { brought: Brought; words: App["words"]; heights: number }) {
  const said = words.bring;
  const flat = brought.points.length - heights;
  const closed = brought.lines.filter(({ closed, vertices }) => closed && vertices.length > 2).length;
  const left = brought.skipped.reduce((sum, { count }) => sum + count, 0);
  return (
    <>
      <ul class="plain">
        {heights > 0 && <li>{said.points(heights)}</li>}
        {flat > 0 && <li>{said.pointsFlat(flat)}</li>}
        {closed > 0 && <li>{said.outlines(closed)}</li>}
        {brought.faces > 0 && <li>{said.faces(brought.faces)}</li>}
      </ul>
      <p>{left === 0 ? said.nothingSkipped : said.skipped(left)}</p>
      <ul>
        {brought.skipped.map(({ what, count, names }) => (
          <li key={what}>{said.skippedWhat[what](count, names.join(", "))}</li>
        ))}
      </ul>
    </>
  );
}

function Ask(props: {
  ask: AskName;
  app: App;
  answers: Partial<Answers>;
  brought: Brought;
  answer(change: Partial<Answers>): void;
}) {
  const { ask, answers, answer, brought } = props;
  const said = props.app.words.bring;
  const value: string = answers[ask] ?? "";
  const options: (readonly [string, string])[] =
    ask === "axes"
      ? (["xy", "yx"] as const).map((one) => [one, said.axes[one]])
      : ask === "decimal"
        ? ([".", ","] as const).map((one) => [one, said.decimals[one]])
        : UNITS.filter((one) => one !== "deg" || brought.format === "geojson").map((one) => [one, said.units[one]]);
  return (
    <Choice
      label={said.ask[ask]}
      value={value}
      options={options}
      set={(one) => answer({ [ask]: one } as Partial<Answers>)}
    />
  );
}

function levelRange({ words }: App, settled: Settled): string {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { z } of settled.points) {
    if (z === null) continue;
    low = Math.min(low, z);
    high = Math.max(high, z);
  }
  return words.bring.levelsBetween(words.pad.mm(words.write.mm1(low)), words.pad.mm(words.write.mm1(high)));
}

function sizeOf({ words, units }: App, vertices: readonly (readonly [number, number, ...number[]])[]): string {
  const xs = vertices.map(([x]) => x);
  const ys = vertices.map(([, y]) => y);
  const say = (list: number[]) => sayLength(words, units, Math.max(...list) - Math.min(...list));
  return `${say(xs)} \u00d7 ${say(ys)}`;
}

function drawn({ points, rings }: Settled, ring: number | null, levels: boolean): Item[] {
  const lines = rings
    .slice(0, DRAWN)
    .map(({ vertices }, i) =>
      polygon(
        "outline",
        bulgedPoints(vertices),
        i === ring ? stroke("thick", "solid", "accent") : stroke("thin", "solid", "grey"),
      ),
    );
  const step = Math.max(1, Math.ceil(points.length / DRAWN));
  const spots = points
    .filter((_, i) => i % step === 0)
    .map(({ x, y, z }) => mark("levels", [x, y], "level", 1.6, 0, levels && z !== null ? "accent" : "grey"));
  return [...lines, ...spots];
}
