import { effortOf } from "../../../../papers/effort.ts";
import { itemWords } from "../../../../papers/order.ts";
import { chosenOf } from "../../../../papers/staking.ts";
import { PREPARATION_RANGE, roundedMinor } from "../../../../papers/summary.ts";
import { Known, type KnownLine } from "../known.tsx";
import { usePlanWords } from "../plan-words.ts";
import type { StepPanel } from "../step.ts";

/** What the job costs as far as it is known: materials, preparation and hours as ranges. No price is made up from them. */
const Panel: StepPanel = ({ app }) => {
  const { price, order, write, field } = app.words;
  const plan = usePlanWords(app);
  const { record } = app;
  if (!record || !plan) return <p>{order.noRecord}</p>;
  const { takeoff, job } = record;
  const money = (minor: number) => write.money(minor, job.currency);
  const unpriced = takeoff.items.filter((item) => item.price === null).map((item) => itemWords(item, record, plan));
  const option = chosenOf(record);
  const moved = option !== null && (option.grindMm3 > 0 || option.fillMm3 > 0);
  const around = (share: number) => money(roundedMinor(option!.costMinor * (1 + share)));
  const { lowHours, highHours } = effortOf(record);
  const hours = (value: number) => write.number(value, 0);
  const lines: KnownLine[] = [
    {
      name: price.materials,
      figure: money(takeoff.totalMinor),
      note: unpriced.length > 0 ? price.unpriced(unpriced.length, unpriced.join(", ")) : null,
      to: "order",
    },
    {
      name: price.preparation,
      figure: !option
        ? price.unknown
        : moved
          ? price.range(around(-PREPARATION_RANGE), around(PREPARATION_RANGE))
          : "0",
      note: !option
        ? null
        : moved
          ? price.preparationHow(field.unit.percent(write.number(PREPARATION_RANGE * 100, 0)))
          : price.nothing,
      to: "prepare",
    },
    {
      name: price.hours,
      figure: field.unit.hours(price.range(hours(lowHours), hours(highHours))),
      note: price.hoursHow,
      to: "days",
    },
  ];
  return (
    <>
      <Known app={app} title={price.known} lines={lines} />
      <h3>{price.notYet}</h3>
      <p>{price.notYetList}</p>
    </>
  );
};
export default Panel;
