import { useEffect, useRef } from "preact/hooks";
import type { AppWords, StepId } from "../../../words/app.ts";
import { ROAD_STEPS } from "../road/steps.ts";

/** The road of steps: a tape along one edge, a tick for each step, a chalk mark at the one that is open. */
export function Road({ words, step, go }: { words: AppWords; step: StepId; go(step: StepId): void }) {
  const road = useRef<HTMLElement>(null);
  // On the phone the road is longer than the screen: the open step is kept in sight.
  useEffect(() => {
    const key = road.current!.querySelector<HTMLElement>("[aria-current]");
    if (key) road.current!.scrollLeft = key.offsetLeft - (road.current!.clientWidth - key.clientWidth) / 2;
  }, [step]);
  return (
    <nav class="road" ref={road} aria-label={words.shell.road}>
      <ol>
        {ROAD_STEPS.map(({ id }) => (
          <li key={id}>
            <button type="button" aria-current={id === step ? "step" : undefined} onClick={() => go(id)}>
              {words.steps[id].name}
            </button>
          </li>
        ))}
      </ol>
    </nav>
  );
}
