import { Choice } from "../../look/choice.tsx";
import { FigureField } from "../../look/figure-field.tsx";
import type { App, StepPanel } from "../step.ts";
import { type Live, useLive } from "./live.ts";
import "./panel.css";
import { PiecePicked } from "./piece.tsx";
import { Slide } from "./slide.tsx";
import { Variants } from "./variants.tsx";
import { alike, wallWays } from "./walls.ts";

/** Direction, bond, first joint and first row; the drawing follows while they are moved. Then ways side by side. */
const Panel: StepPanel = ({ app }) => {
  const live = useLive(app);
  const { setout } = app.words;
  if (!app.record) return <p>{setout.noRecord}</p>;
  const reasons = live.says ?? (app.answer?.ok ? app.answer.reasons : []);
  return (
    <div class="setout">
      <PiecePicked app={app} />
      <Direction app={app} live={live} />
      <Choice
        label={setout.bond}
        value={app.record.job.bond.kind}
        options={(["half", "third", "free", "stack"] as const).map((kind) => [kind, setout.kinds[kind]] as const)}
        set={(kind) => live.take({ kind })}
      />
      <Shift app={app} live={live} />
      <section aria-live="polite">
        <h3>{live.cannot ? setout.cannot : setout.why}</h3>
        <ul class="reasons">
          {reasons.map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      </section>
      <Rules app={app} live={live} />
      <Variants app={app} />
    </div>
  );
};
export default Panel;

function Direction({ app, live }: { app: App; live: Live }) {
  const { setout, write } = app.words;
  const given = app.job.bond?.angle ?? null;
  const nowDeg = app.record!.setout.frame.angleDeg;
  const degrees = (deg: number) => setout.degrees(write.number(deg, deg % 1 === 0 ? 0 : 1));
  return (
    <fieldset class="ways">
      <legend>{setout.direction}</legend>
      <div class="keys">
        <button type="button" aria-pressed={given === null} onClick={() => live.take({ angle: null })}>
          {setout.chosen}
        </button>
        {wallWays(app.record!.survey).map(({ side, way, angleDeg }) => (
          <button
            key={angleDeg}
            type="button"
            aria-pressed={given !== null && alike(given, angleDeg)}
            onClick={() => live.take({ angle: angleDeg })}
          >
            {setout[way](String(side + 1), degrees(angleDeg))}
          </button>
        ))}
      </div>
      <Slide
        app={app}
        label={setout.angle}
        value={given}
        now={nowDeg}
        min={given !== null && given < 0 ? -180 : 0}
        max={given !== null && given > 180 ? 360 : 180}
        step={0.5}
        unit="plain"
        show={(angle) => live.show({ angle })}
        take={(angle) => live.take({ angle })}
        drop={live.drop}
      />
    </fieldset>
  );
}

function Shift({ app, live }: { app: App; live: Live }) {
  const { setout } = app.words;
  const { job, setout: rows, bond } = app.record!;
  const longest = job.board.lengths.reduce((most, { length }) => Math.max(most, length), 0);
  const first = bond.pieces.filter(({ row }) => row === 0);
  const start = first.reduce((least, { u0Um }) => Math.min(least, u0Um), Infinity);
  const joint = bond.joints.find(({ row }) => row === 0);
  const width = first.reduce((most, { widthUm }) => Math.max(most, widthUm), 0) / 1000;
  return (
    <>
      {joint && (
        <Slide
          app={app}
          label={setout.shift}
          value={app.job.bond?.shift ?? null}
          now={Math.round((joint.uUm - start) / 1000)}
          min={0}
          max={longest}
          step={10}
          unit="mm"
          show={(shift) => live.show({ shift })}
          take={(shift) => live.take({ shift })}
          drop={live.drop}
        />
      )}
      <Slide
        app={app}
        label={setout.firstRow}
        value={app.job.bond?.firstRow ?? null}
        now={Math.round(width * 10) / 10}
        min={Math.min(job.bond.minRip, width)}
        max={rows.boardWidthUm / 1000}
        step={1}
        unit="mm"
        show={(firstRow) => live.show({ firstRow, startAt: null })}
        take={(firstRow) => live.take({ firstRow, startAt: null })}
        drop={live.drop}
      />
    </>
  );
}

function Rules({ app, live }: { app: App; live: Live }) {
  const { setout } = app.words;
  const { bond, gaps } = app.record!.job;
  const setGap = (at: 0 | 1, value: number | null) =>
    app.edit("gaps", (job) => {
      const range: [number, number] = [...gaps.sideRange];
      range[at] = value ?? gaps.side;
      const side = Math.min(range[1], Math.max(range[0], gaps.side));
      job.gaps = { ...job.gaps, side, sideRange: range };
    });
  return (
    <details>
      <summary>{setout.rules}</summary>
      <div class="pair-fields">
        <FigureField
          app={app}
          label={setout.gapFrom}
          value={gaps.sideRange[0]}
          unit="mm"
          max={gaps.sideRange[1]}
          set={(value) => setGap(0, value)}
        />
        <FigureField
          app={app}
          label={setout.gapTo}
          value={gaps.sideRange[1]}
          unit="mm"
          min={gaps.sideRange[0]}
          max={50}
          set={(value) => setGap(1, value)}
        />
        {(["stagger", "minPiece", "minRip"] as const).map((name) => (
          <FigureField
            key={name}
            app={app}
            label={setout[name]}
            value={bond[name]}
            unit="mm"
            max={10_000}
            set={(value) => value !== null && live.take({ [name]: value })}
          />
        ))}
      </div>
    </details>
  );
}
