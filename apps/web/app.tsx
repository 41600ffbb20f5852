import type { ComponentType } from "preact";
import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import { jobText } from "../../core/edits/draft.ts";
import type { PlanRecord } from "../../core/plan/record.ts";
import type { Item, Pt } from "../../papers/sheet.ts";
import type { AppWords, StepId } from "../../words/app.ts";
import { LANGUAGES } from "../../words/languages.ts";
import { Board } from "./board/board.tsx";
import type { Bounds, Camera } from "./board/camera.ts";
import type { Hit } from "./board/hit.ts";
import { Said } from "./board/said.tsx";
import { Told } from "./board/told.tsx";
import { giveFiles } from "./give.ts";
import { Findings } from "./look/findings.tsx";
import { Guard } from "./look/guard.tsx";
import { Road } from "./look/road.tsx";
import { TopBar } from "./look/top-bar.tsx";
import type { Opened, Settings } from "./open.ts";
import { GripLayer, type Grips } from "./road/measure/grips.tsx";
import type { App, Tap, ViewAsk } from "./road/step.ts";
import { ROAD_STEPS } from "./road/steps.ts";
import { askToKeep } from "./store/persist.ts";
import { useHeard } from "./use.ts";

/** The app: one drawing, the road of steps along an edge, the open step's panel beside what it changes. */
export function Root({ opened }: { opened: Opened }) {
  const { desk } = opened;
  const [store, setStore] = useState(opened.store);
  const [settings, setSettings] = useState<Settings>(opened.settings);
  const [words, setWords] = useState<AppWords>(opened.words);
  const [step, setStep] = useState<StepId>("setout");
  const [camera, setCamera] = useState<Camera | null>(null);
  const [tapped, setTapped] = useState<Tap | null>(null);
  const [overlay, setOverlay] = useState<readonly Item[] | null>(null);
  const [trial, setTrial] = useState<PlanRecord | null>(null);
  const [view, setView] = useState<ViewAsk | null>(null);
  const [shown, setShown] = useState<{ step: StepId; Panel: ComponentType<{ app: App }> } | null>(null);
  const record = useRef<PlanRecord | null>(null);
  const scale = useRef(50);
  const [grips, setGrips] = useState<Grips | null>(null);
  const [rested, setRested] = useState<Camera | null>(null);
  useHeard(store);
  useHeard(desk);
  const { job, version, events } = store.state;
  // Until the first plan of this project the desk still holds another's.
  const since = useMemo(() => store.state.version, [store]);
  const ours = desk.state.version >= since;
  const answer = ours ? desk.state.answer : null;
  if (answer?.ok) record.current = answer.record;
  const draws = view?.draws ?? ROAD_STEPS.find(({ id }) => id === step)!.draws;

  // Before the browser paints: the plan is on its way while the page draws what was entered.
  useLayoutEffect(() => {
    desk.plan(version, jobText(job), settings.language, { name: draws, scale: scale.current, turnDeg: 0 });
  }, [store, version, settings.language]);
  useEffect(() => {
    if (desk.state.drawing && desk.state.drawing.name !== draws)
      desk.draw({ name: draws, scale: scale.current, turnDeg: 0 });
  }, [draws]);
  useEffect(() => {
    let here = true;
    void ROAD_STEPS.find(({ id }) => id === step)!
      .panel()
      .then((loaded) => here && setShown({ step, Panel: loaded.default as ComponentType<{ app: App }> }));
    return () => {
      here = false;
      setOverlay(null);
      setTrial(null);
      setView(null);
      setGrips(null);
      setTapped(null);
    };
  }, [step]);
  useEffect(() => {
    document.documentElement.dataset.ground = settings.ground;
    document.documentElement.lang = words.language;
    document.title = `${job.title} \u2013 ${words.name}`;
  }, [settings.ground, words, job.title]);

  useEffect(() => void opened.room.note(store.state.project, job.title), [store, job.title]);
  useEffect(() => {
    if (store.state.kept > 1) void askToKeep();
  }, [store.state.kept > 1]);
  useEffect(() => {
    const look = () => {
      if (document.visibilityState === "visible") void store.catchUp();
    };
    document.addEventListener("visibilitychange", look);
    return () => document.removeEventListener("visibilitychange", look);
  }, [store]);

  const onCamera = useCallback((next: Camera, moved: boolean) => {
    if (moved) setCamera(next);
    setRested(next);
    const drawn = desk.state.drawing;
    scale.current = next.scale;
    if (drawn && Math.abs(Math.log(drawn.scale / next.scale)) > 0.1)
      desk.draw({ name: drawn.name, scale: next.scale, turnDeg: 0 });
  }, []);
  const acts = useMemo(
    () => ({
      edit: store.edit,
      undo: store.undo,
      redo: store.redo,
      event: store.event,
      go: setStep,
      overlay: setOverlay,
      view: setView,
      grips: setGrips,
      show: (at: Pt) => setCamera({ at, scale: Math.min(scale.current, 25) }),
      untap: () => setTapped(null),
      pick: (at: Pt, hit: Hit) => setTapped({ at, withinMm: scale.current * 6, hit }),
      preview: setTrial,
      give: giveFiles,
      store,
      desk,
      trials: opened.trials,
    }),
    [store, desk],
  );
  const stale = desk.state.version !== version;
  const app: App = {
    job,
    events,
    answer,
    record: record.current,
    stale,
    words,
    units: settings.units,
    step,
    tapped,
    ...acts,
  };
  const keep = async (change: Partial<Settings>) => {
    const next = { ...settings, ...change };
    if (change.language) setWords(await LANGUAGES[change.language]!.app());
    setSettings(next);
    void opened.room.setSetting("look", next);
  };
  const items = useMemo(() => {
    const all = (ours && desk.state.drawing?.items) || NOTHING;
    return view?.hide?.length ? all.filter(({ layer }) => !view.hide!.includes(layer)) : all;
  }, [ours, desk.state.drawing, view]);
  const drawn = !answer?.ok || desk.state.drawing?.name === draws;
  const settled = !stale && drawn && shown?.step === step && !desk.state.busy && store.state.keeping === "saved";
  return (
    <div
      class="app"
      data-settled={settled ? "true" : "false"}
      data-drawn={!stale && drawn ? "true" : "false"}
      data-kept={store.state.kept}
    >
      <TopBar
        app={app}
        opened={opened}
        settings={settings}
        keep={keep}
        openStore={(next, fresh) => {
          void store.settled().then(store.close);
          record.current = null;
          setCamera(null);
          setStore(next);
          if (fresh) setStep("measure");
        }}
      />
      <Road words={words} step={step} go={setStep} />
      <main class="sheet">
        <Board
          draws={draws}
          items={items}
          overlay={overlay}
          hide={view?.hide ?? NOTHING}
          record={trial ?? record.current}
          trial={trial !== null}
          findings={answer?.ok && !view?.hide?.includes("findings") ? answer.findings : NOTHING}
          picked={tapped?.hit ?? null}
          bounds={view?.bounds ?? boundsOf(record.current)}
          camera={camera}
          onCamera={onCamera}
          onWhole={() => setCamera(null)}
          onTap={(at, withinMm, hit) => setTapped({ at, withinMm, hit })}
          onLeave={() => setTapped(null)}
          words={words.board}
          label={words.shell.drawing}
          ground={settings.ground}
        />
        {grips && rested && <GripLayer grips={grips} camera={rested} items={items} />}
        <Said app={app} />
        <Told record={record.current} words={words} />
      </main>
      <section class="panel" aria-labelledby="step-name">
        <h2 id="step-name">{words.steps[step].name}</h2>
        <p class="hint">{words.steps[step].hint}</p>
        <Guard key={step} says={words.shell.panelFault}>
          {shown?.step === step && <shown.Panel app={app} />}
        </Guard>
        <Findings app={app} />
      </section>
    </div>
  );
}

const NOTHING: readonly never[] = [];

/** What the whole drawing has to show: the outline as measured. */
function boundsOf(record: PlanRecord | null): Bounds {
  const outline = record?.survey.outline ?? [];
  if (outline.length === 0) return { x0: 0, y0: 0, x1: 5000, y1: 3000 };
  const xs = outline.map(([x]) => x);
  const ys = outline.map(([, y]) => y);
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}
