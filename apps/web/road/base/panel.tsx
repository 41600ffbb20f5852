import { useEffect, useState } from "preact/hooks";
import type { SurfaceRecord } from "../../../../core/stages/surface/record.ts";
import type { Layer } from "../../../../papers/sheet.ts";
import { Choice } from "../../look/choice.tsx";
import "../../look/figure-field.css";
import { Sign } from "../../look/sign.tsx";
import type { App, StepPanel } from "../step.ts";
import { Declared } from "./declared.tsx";
import { Here } from "./here.tsx";
import { Judged } from "./judged.tsx";
import { Limits } from "./limits.tsx";
import "./panel.css";

/** Can it be laid on as it is? The verdict, what was found against what is wanted, and what lies in the base. */
const Panel: StepPanel = ({ app }) => {
  const { words, record } = app;
  if (!record) return <p>{words.base.noRecord}</p>;
  const { surface } = record.surface;
  return (
    <div class="base">
      {surface ? <Shape app={app} surface={surface} /> : <p class="verdict">{words.base.noLevels}</p>}
      <Limits app={app} />
      <Declared app={app} />
    </div>
  );
};
export default Panel;

const SIGN = { accept: null, prepare: "warn", "not-proven": "warn", stop: "stop" } as const;
const WITH = ["contours", "falls", "puddles", "straightedge"] as const;

function Shape({ app, surface }: { app: App; surface: SurfaceRecord }) {
  const { base } = app.words;
  const [show, setShow] = useState<"deviation" | "levels">("deviation");
  const [hidden, setHidden] = useState<readonly Layer[]>([]);
  useEffect(() => app.view({ draws: show === "levels" ? "base" : "deviation", hide: hidden }), [show, hidden]);
  const sign = SIGN[surface.verdict];
  return (
    <>
      <p class="verdict" role="status">
        {sign && <Sign symbol={sign} />}
        {base.verdict[surface.verdict]}
      </p>
      <Judged app={app} surface={surface} />
      <Here app={app} />
      <Choice
        label={base.shows}
        value={show}
        options={(["deviation", "levels"] as const).map((name) => [name, base.show[name]] as const)}
        set={(next) => setShow(next)}
      />
      <fieldset class="ticks">
        <legend>{base.with}</legend>
        {WITH.map((layer) => (
          <label key={layer}>
            <input
              type="checkbox"
              checked={!hidden.includes(layer)}
              onChange={({ currentTarget: { checked } }) =>
                setHidden(checked ? hidden.filter((one) => one !== layer) : [...hidden, layer])
              }
            />
            <span>{base.layer[layer]}</span>
          </label>
        ))}
      </fieldset>
      {show === "deviation" && <Key app={app} />}
    </>
  );
}

/** How the map is read, in its own colours. */
function Key({ app }: { app: App }) {
  const { base, write } = app.words;
  const limit = app.record!.job.base.limits.deviation;
  const mm = (value: number) => write.number(value, value % 1 === 0 ? 0 : 1);
  const rows = [
    ["above", base.classOver(mm(limit))],
    ["high", base.classBetween(mm(limit / 2), mm(limit))],
    ["rise", base.classBetween("0", mm(limit / 2))],
    ["sink", base.classBetween(mm(-limit / 2), "0")],
    ["low", base.classBetween(mm(-limit), mm(-limit / 2))],
    ["below", base.classUnder(mm(limit))],
  ] as const;
  return (
    <figure class="map-key">
      <ul>
        {rows.map(([name, words]) => (
          <li key={name}>
            <svg width="40" height="22" viewBox="0 0 40 22" aria-hidden="true" class={`class-${name}`}>
              <rect x="0.5" y="0.5" width="39" height="21" />
              {name === "above" && <path d="M0 14L14 0M4 22L26 0M16 22L38 0M28 22L40 10" />}
              {name === "below" && <path d="M40 14L26 0M36 22L14 0M24 22L2 0M12 22L0 10" />}
            </svg>
            {words}
          </li>
        ))}
      </ul>
      <figcaption class="small">{base.key(app.words.field.unit.mm(mm(limit)))}</figcaption>
    </figure>
  );
}
