import { effortOf, holesOf } from "../../../../papers/effort.ts";
import { chosenOf } from "../../../../papers/staking.ts";
import { Known, type KnownLine } from "../known.tsx";
import type { StepPanel } from "../step.ts";

/** Days as far as the hours tell: a range, and what it stands on. */
const Panel: StepPanel = ({ app }) => {
  const { days, order, write } = app.words;
  const { record } = app;
  if (!record) return <p>{order.noRecord}</p>;
  const effort = effortOf(record);
  const whole = (value: number) => write.number(value, 0);
  const option = chosenOf(record);
  const dry = option && option.fillMm3 > 0;
  const lines: KnownLine[] = [
    { name: days.area, figure: `${write.m2(record.setout.fieldAreaUm2 / 1e6)}\u2009m²`, to: "setout" },
    { name: days.holes, figure: whole(holesOf(record)), to: "fix" },
    {
      name: days.one,
      figure: days.days(effort.lowDays),
    },
    {
      name: days.two,
      figure: days.days(effort.highDays),
      note: days.hours(whole(effort.lowHours), whole(effort.highHours)),
    },
    {
      name: days.drying,
      figure: dry ? "?" : "0",
      note: dry || !option ? days.dryingUnknown : days.dryingNone,
      to: "prepare",
    },
  ];
  return (
    <>
      <Known app={app} title={days.known} lines={lines} />
      <p class="small">{days.how}</p>
      <h3>{days.notYet}</h3>
      <p>{days.notYetList}</p>
    </>
  );
};
export default Panel;
