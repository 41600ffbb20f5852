import type { SaidFinding } from "../desk/asks.ts";
import type { App } from "../road/step.ts";
import { Sign } from "./sign.tsx";

/** What the plan has to say, stops first; a tap goes to the place. While the job has problems, those. */
export function Findings({ app }: { app: App }) {
  const { answer, words } = app;
  if (!answer) return null;
  if (!answer.ok)
    return (
      <section class="findings" aria-live="polite">
        <h3>{words.shell.problems(answer.problems.length)}</h3>
        <ul>
          {answer.problems.map((problem) => (
            <li key={`${problem.place} ${problem.code}`}>
              <strong>{problem.says}</strong> {problem.do}
            </li>
          ))}
        </ul>
      </section>
    );
  const kinds = answer.findings.filter((one, i, all) => all.findIndex((other) => other.number === one.number) === i);
  return (
    <section class="findings">
      {answer.checked && !answer.proved && (
        <div role="alert">
          <h3>{words.shell.unproved}</h3>
          <ul>
            {answer.breaches.slice(0, 20).map((breach) => (
              <li key={breach}>
                <div class="breach">{breach}</div>
              </li>
            ))}
          </ul>
        </div>
      )}
      <h3>{kinds.length > 0 ? words.shell.findings(answer.findings.length) : words.shell.noFindings}</h3>
      <ul>
        {kinds.map((finding) => (
          <Finding key={finding.number} app={app} finding={finding} />
        ))}
      </ul>
    </section>
  );
}

function Finding({ app, finding }: { app: App; finding: SaidFinding }) {
  const { at, level, says, do: remedy, number } = finding;
  const body = (
    <>
      <span class="number">
        <Sign symbol={level} />
        {number}
      </span>
      <span>
        <span class="level">{app.words.shell.level[level]}. </span>
        {says} {remedy}
      </span>
    </>
  );
  return (
    <li>
      {at ? (
        <button
          type="button"
          onClick={() => {
            const index = app.answer?.ok ? app.answer.findings.indexOf(finding) : -1;
            if (index >= 0) app.pick(at, { kind: "finding", index });
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
}
