import { useEffect, useRef, useState } from "preact/hooks";
import { PAPERS, type PaperName } from "../../../words/app.ts";
import { LANGUAGES } from "../../../words/languages.ts";
import { blankJob } from "../blank.ts";
import type { SaidProblem } from "../desk/asks.ts";
import { jobFile, openFile, projectFile, startProject } from "../keep.ts";
import type { Opened, Settings } from "../open.ts";
import type { App } from "../road/step.ts";
import type { ProjectCard } from "../store/log-room.ts";
import type { Store } from "../store/store.ts";
import { Choice } from "./choice.tsx";
import { Keeping } from "./keeping.tsx";
import { TextField } from "./text-field.tsx";

export interface MenuProps {
  app: App;
  opened: Opened;
  settings: Settings;
  keep(change: Partial<Settings>): void;
  openStore(store: Store, fresh: boolean): void;
  close(): void;
}

/** The job's sheet: its name, files and papers, the other jobs on this device, how the app looks and speaks. */
export default function Menu(props: MenuProps) {
  const { app, settings, keep, close } = props;
  const { words } = app;
  const { shell } = words;
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => dialog.current!.showModal(), []);
  return (
    <dialog class="menu" ref={dialog} onClose={close} aria-labelledby="menu-name">
      <div class="menu-head">
        <h2 id="menu-name">{shell.menu}</h2>
        <button type="button" onClick={close}>
          {shell.close}
        </button>
      </div>
      <TextField
        label={shell.title}
        value={app.job.title}
        set={(title) =>
          app.edit("title", (job) => {
            job.title = title;
          })
        }
      />
      <Files {...props} />
      <Papers app={app} />
      <Jobs {...props} />
      <section>
        <h3>{shell.settings}</h3>
        <Choice
          label={shell.language}
          value={settings.language}
          options={Object.entries(LANGUAGES).map(([code, { name }]) => [code, name] as const)}
          set={(language) => keep({ language })}
        />
        <Choice
          label={shell.units}
          value={settings.units}
          options={[
            ["metric", shell.metric],
            ["imperial", shell.imperial],
          ]}
          set={(units) => keep({ units })}
        />
        <Choice
          label={shell.ground}
          value={settings.ground}
          options={(["day", "evening", "sun"] as const).map((ground) => [ground, shell.grounds[ground]] as const)}
          set={(ground) => keep({ ground })}
        />
      </section>
      <Keeping store={app.store} words={words} />
    </dialog>
  );
}

function Files({ app, opened, settings, openStore }: MenuProps) {
  const { shell } = app.words;
  const [trouble, setTrouble] = useState<{ says: string; problems: readonly SaidProblem[] } | null>(null);
  const open = async (file: File | undefined) => {
    if (!file) return;
    const answer = await openFile(file, opened, app.words, settings.language);
    setTrouble(answer.ok ? (answer.says === null ? null : { says: answer.says, problems: [] }) : answer);
    if (answer.ok) openStore(answer.store, false);
  };
  return (
    <section>
      <h3>{shell.files}</h3>
      <div class="keys">
        <button type="button" onClick={() => app.give([projectFile(app.store)])}>
          {shell.saveFile}
        </button>
        <button type="button" onClick={() => app.give([jobFile(app.job)])}>
          {shell.jobFile}
        </button>
        <label class="key">
          {shell.openFile}
          <input
            type="file"
            accept=".json,application/json"
            onChange={(event) => {
              void open(event.currentTarget.files?.[0]);
              event.currentTarget.value = "";
            }}
          />
        </label>
      </div>
      {trouble && (
        <div role="alert">
          <p>{trouble.says}</p>
          <ul class="plain">
            {trouble.problems.slice(0, 20).map((problem) => (
              <li key={`${problem.place} ${problem.code} ${problem.says}`}>
                <strong>{problem.says}</strong> {problem.do}
              </li>
            ))}
          </ul>
        </div>
      )}
    </section>
  );
}

function Papers({ app }: { app: App }) {
  const { shell } = app.words;
  const [busy, setBusy] = useState<PaperName | null>(null);
  const [failed, setFailed] = useState(false);
  if (!app.answer?.ok || (app.answer.checked && !app.answer.proved))
    return (
      <section>
        <h3>{shell.papers}</h3>
        <p>{shell.papersWait}</p>
      </section>
    );
  const write = async (name: PaperName) => {
    setBusy(name);
    setFailed(false);
    try {
      app.give(await app.desk.papers([name]));
    } catch {
      setFailed(true);
    }
    setBusy(null);
  };
  return (
    <section>
      <h3>{shell.papers}</h3>
      <div class="keys">
        {PAPERS.map((name) => (
          <button
            key={name}
            type="button"
            aria-busy={busy === name}
            disabled={busy !== null}
            onClick={() => write(name)}
          >
            {shell.paperNames[name]}
          </button>
        ))}
      </div>
      <p role="status">{failed ? shell.papersFailed : busy ? shell.paperMaking : ""}</p>
    </section>
  );
}

function Jobs({ app, opened, openStore }: MenuProps) {
  const { words, store } = app;
  const { shell } = words;
  const [cards, setCards] = useState<ProjectCard[]>([]);
  const [sure, setSure] = useState<string | null>(null);
  const read = () => void opened.room.projects().then(setCards);
  useEffect(read, [store]);
  const remove = async (id: string) => {
    if (sure !== id) return setSure(id);
    await opened.room.forget(id);
    setSure(null);
    read();
  };
  return (
    <section>
      <h3>{shell.jobs}</h3>
      <ul class="plain jobs">
        {cards.map(({ id, title }) => {
          const here = id === store.state.project;
          return (
            <li key={id}>
              <button
                type="button"
                class="job-name"
                aria-current={here ? "true" : undefined}
                onClick={async () => {
                  if (!here) openStore(await opened.openProject(id), false);
                }}
              >
                {here ? app.job.title : title}
              </button>
              {!here && (
                <button
                  type="button"
                  aria-label={sure === id ? shell.removeSure(title) : shell.removeJob(title)}
                  onClick={() => remove(id)}
                >
                  {sure === id ? shell.removeAgain : shell.remove}
                </button>
              )}
            </li>
          );
        })}
      </ul>
      {sure !== null && <p role="alert">{shell.removeSure(cards.find(({ id }) => id === sure)?.title ?? "")}</p>}
      <button type="button" onClick={async () => openStore(await startProject(opened, blankJob(words)), true)}>
        {shell.newJob}
      </button>
    </section>
  );
}
