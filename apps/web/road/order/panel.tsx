import { useState } from "preact/hooks";
import type { PlanRecord } from "../../../../core/plan/record.ts";
import { itemWords } from "../../../../papers/order.ts";
import type { Words } from "../../../../words/words.ts";
import "../../look/figure-field.css";
import { FigureField } from "../../look/figure-field.tsx";
import { PaperKeys } from "../paper-keys.tsx";
import { usePlanWords } from "../plan-words.ts";
import type { App, StepPanel } from "../step.ts";
import "./panel.css";
import { placesOf } from "./places.ts";
import { priceOf, setPrice } from "./price.ts";

/** What to buy, in packs, with what it costs; and every paper of the plan. */
const Panel: StepPanel = ({ app }) => {
  const { words, record } = app;
  const plan = usePlanWords(app);
  if (!record || !plan) return <p>{words.order.noRecord}</p>;
  return (
    <div class="order">
      <Takeoff app={app} record={record} plan={plan} />
      <h3>{words.order.papers}</h3>
      <p class="small">{words.order.papersHint}</p>
      <PaperKeys
        app={app}
        plan
        papers={[
          ["summary", ["print", "pdf"]],
          ["findings", ["print", "pdf"]],
          ["base", ["print", "pdf", "svg", "dxf"]],
          ["staking", ["print", "pdf", "csv"]],
          ["setout", ["print", "pdf", "svg", "dxf"]],
          ["fixing", ["print", "pdf", "svg", "dxf"]],
          ["cutlist", ["print", "pdf", "csv", "xlsx"]],
          ["cards", ["print", "pdf"]],
          ["order", ["print", "pdf", "csv", "xlsx"]],
        ]}
      />
    </div>
  );
};
export default Panel;

const HEADS = ["need", "spare", "pack", "buy", "price", "sum"] as const;

function Takeoff({ app, record, plan }: { app: App; record: PlanRecord; plan: Words }) {
  const { order, write } = app.words;
  const { takeoff, job } = record;
  const [traced, setTraced] = useState<string | null>(null);
  const trace = (item: string) => {
    const next = traced === item ? null : item;
    setTraced(next);
    app.overlay(next === null ? null : placesOf(record, next));
  };
  const whole = (value: number) => write.number(value, value % 1 === 0 ? 0 : 1);
  const plain = (minor: number) => write.money(minor, job.currency).replace(/\u2009?[A-Z]{3}$/, "");
  const unpriced = takeoff.items.filter(({ price }) => price === null).map((item) => itemWords(item, record, plan));
  return (
    <>
      <table class="takeoff">
        <thead>
          <tr>
            {HEADS.map((head) => (
              <th key={head} scope="col">
                {head === "price" || head === "sum" ? `${order.head[head]} ${job.currency}` : order.head[head]}
              </th>
            ))}
          </tr>
        </thead>
        {takeoff.items.map((item) => {
          const name = itemWords(item, record, plan);
          const price = priceOf(item.item, item.unit);
          return (
            <tbody key={item.item}>
              <tr>
                <th scope="rowgroup" colSpan={6}>
                  {placesOf(record, item.item).length > 0 ? (
                    <button
                      type="button"
                      class="traced"
                      aria-pressed={traced === item.item}
                      aria-label={order.traced(name)}
                      onClick={() => trace(item.item)}
                    >
                      {name}
                    </button>
                  ) : (
                    <span class="untraced">{name}</span>
                  )}
                </th>
              </tr>
              <tr>
                <td>{whole(item.need)}</td>
                <td>{item.spare === 0 ? "\u2013" : whole(item.spare)}</td>
                <td>{whole(item.pack)}</td>
                <td>
                  <strong>{whole(item.buy)}</strong> <span class="small">{plan.papers.unit[item.unit]}</span>
                </td>
                <td>
                  {price === "litre" ? (
                    <button type="button" class="traced" title={order.byLitre} onClick={() => app.go("prepare")}>
                      {item.price === null ? "\u2013" : plain(item.price)}
                    </button>
                  ) : (
                    <FigureField
                      app={app}
                      bare
                      label={order.priceOf(name)}
                      value={item.price}
                      unit="minor"
                      max={1e9}
                      empty={price === "prices" ? order.noPrice : undefined}
                      set={(minor) => app.edit("prices", (draft) => setPrice(draft, item.item, minor))}
                    />
                  )}
                </td>
                <td>{item.price === null ? "\u2013" : plain(Math.round(item.buy * item.price))}</td>
              </tr>
            </tbody>
          );
        })}
      </table>
      <p class="total">{order.total(write.money(takeoff.totalMinor, job.currency))}</p>
      {unpriced.length > 0 && (
        <p>
          <strong>{order.unpriced(unpriced.join(", "))}</strong>
        </p>
      )}
      <p class="small">{order.noTax}</p>
    </>
  );
}
