import type { AppWords, StepId } from "../../../words/app.ts";
import { ROAD_STEPS } from "../road/steps.ts";

/** The road of steps: a measuring line along one edge, a mark for each step. */
export function Road({ words, step, go }: { words: AppWords; step: StepId; go(step: StepId): void }) {
  return (
    <nav class="road" aria-label={words.shell.road}>
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
