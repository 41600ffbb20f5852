import { useEffect, useState } from "preact/hooks";
import { snapPoint } from "../../../../core/measure/snap.ts";
import { polygon, stroke } from "../../../../papers/ink.ts";
import type { Pt } from "../../../../papers/sheet.ts";
import type { App } from "../step.ts";
import type { Shape } from "./shape.ts";

/** Points nearer than this to a neighbour's line are drawn onto it, mm. */
const REACH_MM = 60;

/** Switches dragging of corners on: typed lengths stay the first way, so nothing moves by a slip of the finger. */
export function DragCorners({ app, shape }: { app: App; shape: Shape }) {
  const [on, setOn] = useState(false);
  const said = app.words.measure.drag;
  useEffect(() => {
    if (!on) return app.grips(null);
    const others = (index: number) => shape.points.filter((_, i) => i !== index);
    const moved = (index: number, to: Pt) => shape.points.map((at, i) => (i === index ? to : at));
    app.grips({
      at: shape.points,
      labels: shape.names.map((name) => app.words.measure.outline.corner(name)),
      snap: (index, to) => snapPoint(to, others(index), REACH_MM).at,
      drop: (index, to) =>
        app.edit("outline", (job) => {
          const vertex = job.site.outline![index]!;
          [vertex[0], vertex[1]] = [to[0], to[1]];
        }),
      shown: (index, to) => [polygon("outline", moved(index, to), stroke("thick", "solid", "accent"))],
    });
  }, [on, shape.vertices]);
  useEffect(() => () => app.grips(null), []);
  return (
    <>
      <button type="button" class="wide" aria-pressed={on} onClick={() => setOn(!on)}>
        {on ? said.off : said.on}
      </button>
      {on && <p class="hint">{said.hint}</p>}
    </>
  );
}
