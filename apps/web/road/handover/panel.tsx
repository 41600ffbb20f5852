import type { Confirmation } from "../../../../core/job/job.ts";
import type { PlanRecord } from "../../../../core/plan/record.ts";
import { rowNumber } from "../../../../papers/rowNumber.ts";
import type { HandoverWords } from "../../../../words/app/lay.ts";
import { figureOf } from "../lay/card.tsx";
import { type SiteLog, siteLog } from "../lay/log.ts";
import type { App, StepPanel } from "../step.ts";
import { Care } from "./care.tsx";
import "./panel.css";

/** What was built, what was measured, who answers for what, and what is checked before one leaves. */
const Panel: StepPanel = ({ app }) => {
  const { handover: said, base } = app.words;
  const { record } = app;
  const log = siteLog(app);
  if (!record || !log) return <p>{said.noRecord}</p>;
  const confirmed = (app.job.base?.confirmed ?? []) as Confirmation[];
  return (
    <div class="handover">
      <h3>{said.laid}</h3>
      <Laid app={app} record={record} log={log} />
      <h3>{said.measured}</h3>
      <Measured app={app} record={record} log={log} />
      <h3>{said.open}</h3>
      <Open app={app} />
      <h3>{said.declared}</h3>
      {confirmed.length === 0 && <p>{said.declaredNone}</p>}
      <ul class="plain ruled">
        {confirmed.map((one) => (
          <li key={`${one.of} ${one.by} ${one.on}`}>
            {base.confirmed(base.subject[one.of], one.by, one.on, one.says ?? "")}
          </li>
        ))}
      </ul>
      <Care app={app} />
      <h3>{said.cautions}</h3>
      <ul class="plain ruled">
        {record.site.cautions.map((code) => (
          <li key={code}>{said.caution[code]}</li>
        ))}
      </ul>
      <p class="small">{said.defer}</p>
      <h3>{said.notYet}</h3>
      <p>{said.notYetList}</p>
    </div>
  );
};
export default Panel;

interface Given {
  app: App;
  record: PlanRecord;
  log: SiteLog;
}

function Laid({ app, record, log }: Given) {
  const { handover: said, lay, write } = app.words;
  const { laid, broken } = log.state;
  const whole = (value: number) => write.number(value, 0);
  const open = new Set(record.bond.pieces.filter(({ id }) => !laid.has(id)).map(({ row }) => row));
  const rows = new Set(record.bond.pieces.map(({ row }) => row));
  const spoilt = [...broken.pieces, ...broken.boards];
  return (
    <>
      {log.other && <p>{lay.otherPlan(whole(log.other.laid))}</p>}
      <p>
        {laid.size === 0
          ? said.nothingLaid
          : said.laidOf(
              whole(laid.size),
              whole(record.bond.pieces.length),
              whole(rows.size - open.size),
              whole(rows.size),
            )}
      </p>
      {spoilt.length > 0 && <p>{said.spoilt(spoilt.join(", "))}</p>}
    </>
  );
}

/** How far each measured row lies off its line. */
function Measured({ app, record, log }: Given) {
  const { handover: said } = app.words;
  const lines = [...log.state.lines].sort((a, b) => a[0] - b[0]);
  if (lines.length === 0) return <p>{said.measuredNone}</p>;
  const mm = figureOf(app);
  return (
    <ul class="plain ruled">
      {lines.map(([row, v]) => {
        const strip = record.setout.rows.find((one) => one.row === row);
        if (!strip) return null;
        const off = (value: number) => offWords(said, value - strip.v1Um / 1000, mm);
        return <li key={row}>{said.rowOff(rowNumber(row), off(v[0]), off(v[1]))}</li>;
      })}
    </ul>
  );
}

function offWords(said: HandoverWords, off: number, mm: (value: number) => string): string {
  if (Math.abs(off) < 0.5) return said.onLine;
  return off > 0 ? said.beyond(mm(off)) : said.short(mm(-off));
}

function Open({ app }: { app: App }) {
  const { handover: said, write } = app.words;
  const findings = app.answer?.ok ? app.answer.findings : [];
  const count = (level: "stop" | "warn") => findings.filter((one) => one.level === level).length;
  const [stops, warnings] = [count("stop"), count("warn")];
  return (
    <p>{stops + warnings === 0 ? said.openNone : said.openCount(write.number(stops, 0), write.number(warnings, 0))}</p>
  );
}
