import type { PlanRecord } from "../../../../core/plan/record.ts";
import type { PreparationOption } from "../../../../core/stages/preparation/record.ts";
import "../../look/figure-field.css";
import { PaperKeys } from "../paper-keys.tsx";
import type { App, StepPanel } from "../step.ts";
import { Materials } from "./materials.tsx";
import "./panel.css";
import { Stakes } from "./stakes.tsx";

/** What to grind, what to fill, what it costs: the ways side by side, the chosen one staked on the drawing. */
const Panel: StepPanel = ({ app }) => {
  const { words, record } = app;
  if (!record?.surface.surface) return <p>{record ? words.base.noLevels : words.prepare.noRecord}</p>;
  const { options, chosen } = record.preparation;
  return (
    <div class="prepare">
      <Options app={app} record={record} />
      {chosen === null ? (
        <p class="verdict">{words.prepare.noneChosen}</p>
      ) : (
        <Stakes app={app} option={options[chosen]!} />
      )}
      <PaperKeys app={app} papers={[["staking", ["pdf", "csv"]]]} />
      <Materials app={app} />
    </div>
  );
};
export default Panel;

const ROWS = ["had", "grind", "fill", "mass", "perM2", "cost", "drying"] as const;

function Options({ app, record }: { app: App; record: PlanRecord }) {
  const { prepare } = app.words;
  const { options, chosen } = record.preparation;
  const now = (i: number) => (i === chosen ? "true" : undefined);
  return (
    <>
      <div class="options-scroll">
        <table class="options">
          <caption class="aloud">{prepare.options}</caption>
          <thead>
            <tr>
              {options.map(({ option }, i) => (
                <th key={option} scope="col" data-chosen={now(i)}>
                  {prepare.option[option]}
                </th>
              ))}
            </tr>
          </thead>
          {ROWS.map((row) => (
            <tbody key={row}>
              <tr>
                <th scope="rowgroup" colSpan={options.length} class="small">
                  {row === "cost" ? `${prepare.row.cost}, ${record.job.currency}` : prepare.row[row]}
                </th>
              </tr>
              <tr>
                {options.map((option, i) => (
                  <td key={option.option} data-chosen={now(i)}>
                    {figure(app, option, row)}
                  </td>
                ))}
              </tr>
            </tbody>
          ))}
        </table>
      </div>
      {chosen !== null && (
        <p>
          <strong>
            {prepare.chosen}: {prepare.option[options[chosen]!.option]}.
          </strong>
        </p>
      )}
      <dl class="whys">
        {options.map(({ option, why }) => (
          <div key={option}>
            <dt>{prepare.option[option]}</dt>
            <dd>{prepare.why[why as keyof typeof prepare.why] ?? why}</dd>
          </div>
        ))}
      </dl>
      <p class="small">{prepare.dryingUnknown}</p>
    </>
  );
}

function figure(app: App, option: PreparationOption, row: (typeof ROWS)[number]): string {
  const { prepare, write } = app.words;
  if (row === "had") return option.feasible ? prepare.had : prepare.notHad;
  // An option that cannot be had has no figures to choose by.
  if (!option.feasible) return "\u2013";
  if (row === "grind") return write.number(option.grindMm3 / 1e6, 1);
  if (row === "fill") return write.number(option.fillMm3 / 1e6, 1);
  if (row === "mass") return write.number(option.massKg, 0);
  if (row === "perM2") return write.number(option.massPerM2Kg, 0);
  if (row === "drying") return option.fillMm3 === 0 ? "0" : "?";
  // Whole money is enough beside a provisional figure: the currency stands in the row's head.
  return write.money(option.costMinor, app.record!.job.currency).replace(/\u2009?[A-Z]{3}$/, "");
}
