import type { JSX } from "preact";
import { useEffect, useState } from "preact/hooks";
import type { MeasurePart } from "../../../../words/app/measure.ts";
import { BringPart } from "../../bring/part.tsx";
import type { App, StepPanel } from "../step.ts";
import { Levels } from "./levels.tsx";
import { Outline } from "./outline.tsx";
import "./panel.css";
import { Sides } from "./sides.tsx";
import { Tapes } from "./tapes.tsx";
import { Things } from "./things.tsx";

const PARTS: readonly (readonly [MeasurePart, (props: { app: App }) => JSX.Element])[] = [
  ["outline", Outline],
  ["tapes", Tapes],
  ["sides", Sides],
  ["things", Things],
  ["levels", Levels],
  ["bring", BringPart],
];

/** Measuring, in the order one does it on site: round the outline, diagonals, sides, posts and areas, levels. */
const Panel: StepPanel = ({ app }) => {
  const [part, setPart] = useState<MeasurePart>("outline");
  const { measure } = app.words;
  const Part = PARTS.find(([name]) => name === part)![1];
  useEffect(
    () => () => {
      app.overlay(null);
      app.untap();
    },
    [part],
  );
  return (
    <div class="measure">
      <nav class="parts" aria-label={measure.parts}>
        {PARTS.map(([name]) => (
          <button
            key={name}
            type="button"
            aria-current={name === part ? "true" : undefined}
            onClick={() => setPart(name)}
          >
            {measure.part[name]}
          </button>
        ))}
      </nav>
      <Part key={`${part} ${app.store.state.project}`} app={app} />
    </div>
  );
};
export default Panel;
