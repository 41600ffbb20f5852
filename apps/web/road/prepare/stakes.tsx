import { useState } from "preact/hooks";
import type { PreparationOption } from "../../../../core/stages/preparation/record.ts";
import { mark } from "../../../../papers/ink.ts";
import type { App } from "../step.ts";

/** Less than this is left as it is, mm: the drawing and the list show tenths. */
const NOTHING_MM = 0.05;
const SHOWN = 40;

/** What to do at each reading, most first; a tap shows the place. */
export function Stakes({ app, option }: { app: App; option: PreparationOption }) {
  const { prepare, write, field } = app.words;
  const [picked, setPicked] = useState<number | null>(null);
  const work = option.stakes.filter(({ changeMm }) => Math.abs(changeMm) >= NOTHING_MM);
  const sorted = [...work].sort((a, b) => Math.abs(b.changeMm) - Math.abs(a.changeMm));
  const whole = (count: number) => write.number(count, 0);
  const grind = work.filter(({ changeMm }) => changeMm < 0).length;
  return (
    <details>
      <summary>{prepare.stakes}</summary>
      <p>
        {work.length === 0
          ? prepare.nothingToDo
          : prepare.stakesCount(whole(grind), whole(work.length - grind), whole(option.stakes.length - work.length))}
      </p>
      <ul class="plain stakes">
        {sorted.slice(0, SHOWN).map((stake, i) => {
          const mm = field.unit.mm(write.mm1(Math.abs(stake.changeMm)));
          return (
            <li key={stake.at.join(" ")}>
              <button
                type="button"
                aria-pressed={picked === i}
                onClick={() => {
                  setPicked(i);
                  app.overlay([mark("stakes", stake.at, "level", 5, 45, "accent")]);
                  app.show(stake.at);
                }}
              >
                <span>
                  {write.mm(stake.at[0])} / {write.mm(stake.at[1])}
                </span>
                <strong>{stake.changeMm < 0 ? prepare.grind(mm) : prepare.fill(mm)}</strong>
              </button>
            </li>
          );
        })}
      </ul>
      {sorted.length > SHOWN && <p class="small">{prepare.more(whole(sorted.length - SHOWN))}</p>}
    </details>
  );
}
