import latin from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff?url";
import latinBold from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-700-normal.woff?url";
import extra from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-400-normal.woff?url";
import extraBold from "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-ext-700-normal.woff?url";
import { parse } from "jsonc-parser";
import type { Json } from "../../core/edits/edit.ts";
import example from "../../examples/courtyard.job.json?raw";
import type { AppWords } from "../../words/app.ts";
import { LANGUAGES } from "../../words/languages.ts";
import { type Desk, openDesk } from "./desk/client.ts";
import type { Units } from "./road/step.ts";
import { openLogRoom } from "./store/indexed-db.ts";
import type { LogRoom } from "./store/log-room.ts";
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
  store: Store;
  desk: Desk;
  settings: Settings;
  words: AppWords;
  openProject(id: string): Promise<Store>;
  /** Starts a project with this job. */
  startProject(job: Json): Promise<string>;
}

export async function openApp(): Promise<Opened> {
  const room = await openLogRoom();
  const settings: Settings = {
    language: "en",
    units: "metric",
    ground: "day",
    ...((await room.setting("look")) as Partial<Settings> | undefined),
  };
  if (!LANGUAGES[settings.language]) settings.language = "en";
  const tabs = openTabs();
  const openProject = (id: string) => openStore(room, id, () => crypto.randomUUID(), tabs);
  const startProject = async (job: Json) => {
    const id = crypto.randomUUID();
    await room.append(id, [{ id: crypto.randomUUID(), project: id, kind: "start", job }], 0);
    await room.note(id, String((job as { title?: unknown }).title ?? ""));
    return id;
  };
  const last = (await room.projects())[0]?.id ?? (await startProject(parse(example) as Json));
  const spawn = () => new Worker(new URL("./desk/plan.worker.ts", import.meta.url), { type: "module" });
  const fonts = { regular: [latin, extra].map(absolute), bold: [latinBold, extraBold].map(absolute) };
  return {
    room,
    store: await openProject(last),
    desk: openDesk(spawn, fonts, requestAnimationFrame),
    settings,
    words: await LANGUAGES[settings.language]!.app(),
    openProject,
    startProject,
  };
}

function absolute(path: string): string {
  return new URL(path, location.href).href;
}
