import { useEffect, useMemo } from "preact/hooks";
import { probeBase } from "../../../../papers/drawing/probe.ts";
import { mark } from "../../../../papers/ink.ts";
import type { App } from "../step.ts";

/** The figures of the place that was tapped. */
export function Here({ app }: { app: App }) {
  const { base, write, field } = app.words;
  const { tapped, record } = app;
  const probe = useMemo(() => (tapped && record ? probeBase(record, tapped.at) : null), [tapped, record]);
  useEffect(() => app.overlay(tapped ? [mark("levels", tapped.at, "level", 5, 45, "accent")] : null), [tapped]);
  const mm1 = (mm: number) => field.unit.mm(write.mm1(mm));
  return (
    <p class="here" role="status">
      {!tapped && <span class="small">{base.tapFor}</span>}
      {tapped && (
        <>
          <span class="small">
            {base.here} {write.mm(tapped.at[0])} / {write.mm(tapped.at[1])}
          </span>
          {probe ? (
            <>
              <strong>
                {base.hereHeight(mm1(probe.zMm))}, {base.hereOff(mm1(Math.abs(probe.offMm)), probe.offMm >= 0)}
              </strong>
              <span class="small">
                {probe.carried ? base.hereCarried : base.hereReading(field.unit.mm(write.mm(probe.nearest.mm)))}
              </span>
            </>
          ) : (
            <strong>{base.hereOutside}</strong>
          )}
        </>
      )}
    </p>
  );
}
