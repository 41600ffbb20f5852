import type { Confirmation } from "../../../../core/job/job.ts";
import type { PlanRecord } from "../../../../core/plan/record.ts";
import { Sign } from "../../look/sign.tsx";
import { Confirm } from "../base/confirm.tsx";
import "../../look/figure-field.css";
import type { App, StepPanel } from "../step.ts";
import "../cut/panel.css";
import "./panel.css";

/** Every clip and hole: how many, how deep, how far each may move, where none may be drilled and why; and who released it. */
const Panel: StepPanel = ({ app }) => {
  const { fix } = app.words;
  const { record } = app;
  if (!record) return <p>{fix.noRecord}</p>;
  return (
    <div class="fix">
      <Release app={app} record={record} />
      {record.site.drillingReleased && <Picked app={app} record={record} />}
      <Counts app={app} record={record} />
      <Depth app={app} record={record} />
      <NoDrill app={app} record={record} />
      <Barred app={app} />
    </div>
  );
};
export default Panel;

const HIDDEN = ["membrane", "heating", "tendons"] as const;

/** Released or not; while it is not: what has to be answered for, and by whom. */
function Release({ app, record }: { app: App; record: PlanRecord }) {
  const { fix } = app.words;
  const confirmed = (app.job.base?.confirmed ?? []) as Confirmation[];
  if (record.site.drillingReleased) return <p class="verdict">{fix.released}</p>;
  const open = HIDDEN.filter(
    (name) => record.job.base[name] !== false && !confirmed.some(({ of, by }) => of === name && by.trim() !== ""),
  );
  return (
    <section>
      <p class="verdict">
        <Sign symbol="stop" />
        {fix.held}
      </p>
      <ul class="reasons">
        {open.map((name) => (
          <li key={name}>{fix.confirmFor[name]}</li>
        ))}
      </ul>
      <div class="keys">
        <button type="button" onClick={() => app.go("base")}>
          {fix.open}
        </button>
      </div>
      <Confirm app={app} confirmed={confirmed} />
    </section>
  );
}

function Picked({ app, record }: { app: App; record: PlanRecord }) {
  const { fix, write } = app.words;
  const hit = app.tapped?.hit;
  const clip = hit?.kind === "clip" ? record.fixing.clips[hit.index] : undefined;
  const screw = hit?.kind === "screw" ? record.fixing.screws[hit.index] : undefined;
  if (screw)
    return (
      <section class="picked">
        <p>{fix.clip.screw(record.bond.pieces[screw.piece]!.id)}</p>
      </section>
    );
  if (!clip) return <p class="small">{fix.clip.ask}</p>;
  const depth = record.takeoff.depthsMm[hit!.index];
  const pieces = clip.holds.map((piece) => record.bond.pieces[piece]!.id).join(", ");
  return (
    <section class="picked">
      <h3>{fix.clip.head(app.words.fix.one[clip.kind], clip.id)}</h3>
      <p>
        {fix.clip.play(write.mm(-clip.playUm[0] / 1000), write.mm(clip.playUm[1] / 1000))} {fix.clip.holds(pieces)}
        {depth !== undefined && ` ${fix.clip.depth(write.mm(depth))}`}
      </p>
    </section>
  );
}

function Counts({ app, record }: { app: App; record: PlanRecord }) {
  const { fix, write } = app.words;
  const { counts, screws, clips } = record.fixing;
  const holes = clips.length * record.job.clips.fixing.holes.length;
  const lines = [
    ...(["start", "seam", "last", "end"] as const).map((kind) => [kind, counts[kind]] as const),
    ["screw", screws.length] as const,
  ].filter(([, count]) => count > 0);
  return (
    <section>
      <h3>{fix.count}</h3>
      <table class="counts">
        <tbody>
          {lines.map(([kind, count]) => (
            <tr key={kind}>
              <th scope="row">
                <Sign symbol={kind === "screw" ? "screw" : `clip-${kind}`} />
                {fix.kinds[kind]}
              </th>
              <td>{write.mm(count)}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">{fix.total}</th>
            <td>{write.mm(holes)}</td>
          </tr>
        </tbody>
      </table>
    </section>
  );
}

function Depth({ app, record }: { app: App; record: PlanRecord }) {
  const { fix, write } = app.words;
  const depths = record.takeoff.depthsMm;
  if (depths.length === 0) return null;
  const least = depths.reduce((a, b) => Math.min(a, b));
  const most = depths.reduce((a, b) => Math.max(a, b));
  const { fixing } = record.job.clips;
  return (
    <section>
      <h3>{fix.depth}</h3>
      <p class="first-line">
        {least === most ? fix.depthOne(write.mm(least)) : fix.depthRange(write.mm(least), write.mm(most))}
      </p>
      <p class="small">
        {fix.bit(write.number(fixing.diameter, fixing.diameter % 1 === 0 ? 0 : 1))}.{" "}
        {fix.depthHint(write.mm(fixing.embed))}
      </p>
    </section>
  );
}

function NoDrill({ app, record }: { app: App; record: PlanRecord }) {
  const { fix } = app.words;
  const areas = record.survey.noDrill;
  return (
    <section>
      <h3>{fix.noDrill}</h3>
      {areas.length === 0 && <p>{fix.noDrillNone}</p>}
      <ul class="plain">
        {areas.map(({ name, ring }, i) => {
          const middle = ring.reduce(([a, b], [x, y]) => [a + x / ring.length, b + y / ring.length], [0, 0]);
          return (
            <li key={i}>
              <button
                type="button"
                class="piece-key"
                aria-label={fix.show(name)}
                onClick={() => app.show(middle as [number, number])}
              >
                {name}
              </button>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** Laws of clips: a finding of one of these says where a clip could not stand, and why. */
const CLIP_RULES = new Set([
  "clips",
  "clipEnd",
  "clipSpacing",
  "jointClip",
  "endClip",
  "oneEdge",
  "slabUnknown",
  "wallReach",
]);

function Barred({ app }: { app: App }) {
  const { fix, shell } = app.words;
  const all = app.answer?.ok ? app.answer.findings : [];
  const mine = all.map((finding, index) => ({ finding, index })).filter(({ finding }) => CLIP_RULES.has(finding.code));
  return (
    <section class="findings">
      <h3>{fix.barred}</h3>
      {mine.length === 0 && <p>{fix.barredNone}</p>}
      <ul>
        {mine.map(({ finding, index }) => {
          const { at, level, says, number } = finding;
          const body = (
            <>
              <span class="number">
                <Sign symbol={level} />
                {number}
              </span>
              <span>
                <span class="level">{shell.level[level]}. </span>
                {says}
              </span>
            </>
          );
          return (
            <li key={index}>
              {at ? (
                <button
                  type="button"
                  onClick={() => {
                    app.pick(at, { kind: "finding", index });
                    app.show(at);
                  }}
                >
                  {body}
                </button>
              ) : (
                <div>{body}</div>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}
