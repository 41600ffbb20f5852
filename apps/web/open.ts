import latin from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff?url";
import latinBold from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff?url";
import extra from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-400-normal.woff?url";
import extraBold from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-700-normal.woff?url";
import { asJson } from "../../core/edits/draft.ts";
import { anew } from "../../core/edits/project.ts";
import type { AppWords } from "../../words/app.ts";
import { LANGUAGES } from "../../words/languages.ts";
import { exampleJob } from "./blank.ts";
import { type Desk, openDesk } from "./desk/client.ts";
import { openTrials, type Trials } from "./desk/trials.ts";
import type { Units } from "./road/step.ts";
import { newId } from "./store/ids.ts";
import { openLogRoom } from "./store/indexed-db.ts";
import type { LogRoom } from "./store/log-room.ts";
import { memoryRoom } from "./store/memory.ts";
import { openStore, type Store } from "./store/store.ts";
import { openTabs } from "./store/tabs.ts";

export type Ground = "day" | "evening" | "sun";
export interface Settings {
  language: string;
  units: Units;
  ground: Ground;
}
/** Everything the page stands on. */
export interface Opened {
  room: LogRoom;
  /** False: this window keeps nothing (private browsing, storage switched off). */
  lasting: boolean;
  store: Store;
  desk: Desk;
  trials: Trials;
  settings: Settings;
  words: AppWords;
  openProject(id: string): Promise<Store>;
}

export async function openApp(): Promise<Opened> {
  const { room, lasting } = await openRoom();
  const settings: Settings = {
    language: navigator.languages.map((tag) => tag.slice(0, 2)).find((tag) => LANGUAGES[tag]) ?? "en",
    units: "metric",
    ground: "day",
    ...((await room.setting("look")) as Partial<Settings> | undefined),
  };
  if (!LANGUAGES[settings.language]) settings.language = "en";
  const tabs = openTabs();
  const openProject = async (id: string) => {
    const store = await openStore(room, id, newId, tabs);
    await room.note(id, store.state.job.title);
    return store;
  };
  // Text on the drawing is measured and painted once: its letters have to be there.
  const letters = Promise.all(['16px "Atkinson"', 'bold 16px "Atkinson"'].map((font) => document.fonts.load(font)));
  const spawn = () => new Worker(new URL("./desk/plan.worker.ts", import.meta.url), { type: "module" });
  const spawnTrial = () => new Worker(new URL("./desk/trial.worker.ts", import.meta.url), { type: "module" });
  const fonts = { regular: [latin, extra].map(absolute), bold: [latinBold, extraBold].map(absolute) };
  await letters;
  return {
    room,
    lasting,
    store: await lastProject(room, openProject),
    // Changes of one moment are one ask; while one is planned the newest waits. Waiting for a frame besides would only cost time.
    desk: openDesk(spawn, fonts, queueMicrotask),
    trials: openTrials(spawnTrial),
    settings,
    words: await LANGUAGES[settings.language]!.app(),
    openProject,
  };
}

async function openRoom(): Promise<{ room: LogRoom; lasting: boolean }> {
  try {
    return { room: await openLogRoom(), lasting: true };
  } catch {
    return { room: memoryRoom(), lasting: false };
  }
}

/** The job used last; where its log cannot be read, the one before it. */
async function lastProject(room: LogRoom, open: (id: string) => Promise<Store>): Promise<Store> {
  for (const { id } of await room.projects()) {
    const store = await open(id).catch(() => null);
    if (store) return store;
  }
  return open(await firstProject(room));
}

/** A device that has no job yet opens on the example. Two tabs opened at once make one of it: its id is fixed. */
async function firstProject(room: LogRoom): Promise<string> {
  const torn = (await room.read("example", 0)).some(({ record }) => record === null);
  const id = torn ? newId() : "example";
  if ((await room.read(id, 0)).length === 0) {
    const job = exampleJob();
    await room.append(id, anew(id, asJson(job), []), 0);
    await room.note(id, job.title);
  }
  return id;
}

function absolute(path: string): string {
  return new URL(path, location.href).href;
}
