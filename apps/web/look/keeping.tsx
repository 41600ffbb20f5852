import { useEffect, useState } from "preact/hooks";
import type { AppWords } from "../../../words/app.ts";
import { offline } from "../offline/offline.ts";
import { askToKeep, type Persisted } from "../store/persist.ts";
import type { Store } from "../store/store.ts";
import { useHeard } from "../use.ts";

/** Whether this device keeps what was entered, and works without a signal: asked for and said as it is. */
export function Keeping({ store, words }: { store: Store; words: AppWords }) {
  const { shell } = words;
  const { keeping, skipped } = store.state;
  const [answer, setAnswer] = useState<Persisted>("unasked");
  useHeard(offline);
  useEffect(() => void askToKeep().then(setAnswer), []);
  return (
    <section>
      <h3>{shell.safeKeeping}</h3>
      <ul class="plain">
        <li>{keeping === "stuck" ? shell.notSaved : shell[keeping]}</li>
        <li>{shell.persisted(answer)}</li>
        {skipped > 0 && <li>{shell.skipped(skipped)}</li>}
        {offline.state.ready && <li>{shell.offlineReady}</li>}
        {offline.state.waiting && <li>{shell.updateWaits}</li>}
      </ul>
    </section>
  );
}
