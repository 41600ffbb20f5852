import type { ComponentChildren } from "preact";
import type { SurfaceRecord } from "../../../../core/stages/surface/record.ts";
import type { Pt } from "../../../../papers/sheet.ts";
import { Sign } from "../../look/sign.tsx";
import { sayLength } from "../../pad/say.ts";
import type { App } from "../step.ts";

/** Readings farther apart prove no evenness: the rule of the verdict. */
const PROVES_MM = 500;

interface Line {
  name: string;
  note?: string;
  found: string;
  at: Pt | null;
  limit: string;
  /** Null: no limit stands against it. */
  holds: boolean | null;
}

/** Every figure the verdict stands on, against its limit; a tap shows its place. */
export function Judged({ app, surface }: { app: App; surface: SurfaceRecord }) {
  const { base } = app.words;
  return (
    <table class="judged">
      <caption class="aloud">{base.judged}</caption>
      <thead>
        <tr>
          <th />
          <th>{base.found}</th>
          <th>{base.limit}</th>
        </tr>
      </thead>
      <tbody>
        {linesOf(app, surface).map((line) => (
          <tr key={line.name}>
            <th scope="row">
              {line.name}
              {line.note && <span class="small"> {line.note}</span>}
            </th>
            <td>
              <Traced app={app} at={line.at}>
                <strong>{line.found}</strong>
              </Traced>
              {line.holds === false && (
                <span class="fails">
                  {" "}
                  <Sign symbol="warn" size={14} /> {base.fails}
                </span>
              )}
            </td>
            <td>{line.limit}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** A figure; where it has a place on the drawing, a key that shows it. */
export function Traced({ app, at, children }: { app: App; at: Pt | null; children: ComponentChildren }) {
  if (!at) return <>{children}</>;
  return (
    <button type="button" class="traced" onClick={() => app.show(at)}>
      {children}
    </button>
  );
}

function linesOf(app: App, surface: SurfaceRecord): Line[] {
  const { words, record } = app;
  const { base, write, field } = words;
  const { limits } = record!.job.base;
  const mm1 = (mm: number) =>
    app.units === "imperial" ? sayLength(words, "imperial", mm) : field.unit.mm(write.mm1(mm));
  // In a sentence a figure keeps its unit.
  const mm = (value: number) => sayLength(words, app.units, value).replaceAll("\u2009", "\u202f");
  const percent = (value: number) => write.percent(value);
  const lines: Line[] = [];
  const bar = surface.straightedge;
  const read = record!.survey.straightedges.reduce<{ at: Pt; gapMm: number; lengthMm: number } | null>((worst, one) => {
    if (worst && worst.gapMm >= one.gapMm) return worst;
    const [dx, dy] = [one.to[0] - one.from[0], one.to[1] - one.from[1]];
    const at: Pt = [one.from[0] + dx / 2, one.from[1] + dy / 2];
    return { at, gapMm: one.gapMm, lengthMm: Math.sqrt(dx * dx + dy * dy) };
  }, null);
  const gap = (found: { gapMm: number; at: Pt }, note?: string): Line => ({
    name: base.gap(mm(limits.straightedge)),
    ...(note ? { note } : {}),
    found: mm1(found.gapMm),
    at: found.at,
    limit: `\u2264\u2009${mm1(limits.unevenness)}`,
    holds: found.gapMm <= limits.unevenness,
  });
  if (bar) lines.push(gap(bar));
  if (read) lines.push({ ...gap(read, base.gapRead), name: base.gap(mm(Math.round(read.lengthMm))) });
  const facets = surface.facets.length;
  const half = facets > 1 ? Math.max(...surface.facets.map((one) => one.halfWidthMm)) : surface.zone.halfWidthMm;
  lines.push({
    name: base.offPlane(facets),
    found: mm1(half),
    at: farthest(surface),
    limit: `\u2264\u2009${mm1(limits.deviation)}`,
    holds: half <= limits.deviation,
  });
  const { fall, towards } = surface.plane;
  const compass = base.compass[Math.round(towards / 45) % 8]!;
  lines.push({
    name: base.fall,
    note: fall > 0 ? compass : "",
    found: percent(fall),
    at: null,
    limit: `${percent(limits.fallMin)} \u2013 ${percent(limits.fallMax)}`,
    holds: fall >= limits.fallMin && fall <= limits.fallMax,
  });
  const flattest = surface.falls.reduce<SurfaceRecord["falls"][number] | null>(
    (least, one) => (least && least.fall <= one.fall ? least : one),
    null,
  );
  if (flattest)
    lines.push({
      name: base.localFall,
      found: percent(flattest.fall),
      at: flattest.at,
      limit: `\u2265\u2009${percent(limits.fallLocalMin)}`,
      holds: flattest.fall >= limits.fallLocalMin,
    });
  const deepest = surface.puddles.reduce<SurfaceRecord["puddles"][number] | null>(
    (most, one) => (most && most.depthMm >= one.depthMm ? most : one),
    null,
  );
  lines.push({
    name: base.puddles(surface.puddles.length),
    found: deepest ? base.deepest(mm1(deepest.depthMm)) : base.none,
    at: deepest?.at ?? null,
    limit: base.none,
    holds: deepest === null,
  });
  lines.push({
    name: base.spacing,
    note: surface.spacingMm > PROVES_MM ? base.spacingHow(mm(PROVES_MM)) : "",
    found: mm(Math.round(surface.spacingMm)),
    at: null,
    limit: "",
    holds: null,
  });
  return lines;
}

/** The reading of the zone's certificate that lies farthest off its plane. */
function farthest({ zone, facets }: SurfaceRecord): Pt | null {
  if (facets.length > 1 || zone.points.length === 0) return null;
  const off = (p: readonly [number, number, number]) => Math.abs(p[2] - (zone.a * p[0] + zone.b * p[1] + zone.c));
  const worst = zone.points.reduce((a, b) => (off(b) > off(a) ? b : a));
  return [worst[0], worst[1]];
}
