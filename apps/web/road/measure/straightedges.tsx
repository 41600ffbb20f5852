import { useEffect, useState } from "preact/hooks";
import type { Pt } from "../../../../papers/sheet.ts";
import { Choice } from "../../look/choice.tsx";
import { LengthPad } from "../../pad/length-pad.tsx";
import { sayLength } from "../../pad/say.ts";
import type { App } from "../step.ts";
import { drawCorners, drawEdge } from "./draw.ts";
import type { Shape } from "./shape.ts";

const ASKED = ["startX", "startY", "edgeLength", "gapUnder"] as const;

/** Straightedge and wedge: where it lay, how long it is, the largest gap under it. A tap on the drawing gives the start. */
export function Straightedges({ app, shape }: { app: App; shape: Shape }) {
  const { words, units, job, tapped } = app;
  const said = words.measure.levels;
  const [figures, setFigures] = useState<number[]>([]);
  const [along, setAlong] = useState<"alongX" | "alongY">("alongX");
  const edges = job.survey?.straightedges ?? [];
  const usual = job.base?.limits?.straightedge ?? 2000;
  const end = ([x, y]: Pt, long: number): Pt => (along === "alongX" ? [x + long, y] : [x, y + long]);
  useEffect(() => {
    if (tapped) setFigures([Math.round(tapped.at[0]), Math.round(tapped.at[1])]);
  }, [tapped]);
  const [x, y, long] = figures;
  const start: Pt | null = x === undefined ? null : [x, y ?? shape.points[0]![1]];
  useEffect(() => {
    const shown = edges.map(({ from, to }) => drawEdge(from as unknown as Pt, to as unknown as Pt));
    if (start) shown.push(drawEdge(start, end(start, long ?? usual)));
    app.overlay([...shown, ...drawCorners(shape.names, shape.points)]);
  }, [figures, along, job, app.record]);
  const next = (mm: number) => {
    const list = [...figures, mm];
    if (list.length < ASKED.length) return setFigures(list);
    const from: Pt = [list[0]!, list[1]!];
    const edge = { from: [...from], to: [...end(from, list[2]!)], gap: mm };
    app.edit("levels", (draft) => {
      draft.survey = { ...draft.survey, straightedges: [...edges, edge] as typeof edges };
    });
    setFigures([]);
    app.untap();
  };
  const asked = ASKED[figures.length] ?? "gapUnder";
  const say = (mm: number) => sayLength(words, units, mm);
  return (
    <>
      <p class="hint">{said.straightedgeHint}</p>
      <Choice<"alongX" | "alongY">
        label={said.direction}
        value={along}
        options={[
          ["alongX", said.alongX],
          ["alongY", said.alongY],
        ]}
        set={setAlong}
      />
      <LengthPad
        key={asked}
        app={app}
        label={said[asked]}
        minus={asked === "startX" || asked === "startY"}
        zero={asked !== "edgeLength"}
        last={asked === "edgeLength" ? usual : null}
        onNext={next}
      />
      {figures.length > 0 && <p class="hint">{figures.map((mm, i) => `${said[ASKED[i]!]}: ${say(mm)}`).join(". ")}</p>}
      {edges.length > 0 && <p>{said.edges(edges.length)}</p>}
      <ul class="plain list">
        {edges.map((edge, index) => {
          const at = edge.from as unknown as Pt;
          const words = said.edgeAt(`${say(at[0])} / ${say(at[1])}`, say(edge.gap ?? 0));
          return (
            <li key={index}>
              <button type="button" class="to" onClick={() => app.show(at)}>
                {words}
              </button>
              <button
                type="button"
                aria-label={said.remove(words)}
                onClick={() => app.edit("levels", (draft) => void draft.survey!.straightedges!.splice(index, 1))}
              >
                {"\u00d7"}
              </button>
            </li>
          );
        })}
      </ul>
    </>
  );
}
