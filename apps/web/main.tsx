import { render } from "preact";
import { Root } from "./app.tsx";
import { keepOffline } from "./offline/offline.ts";
import { type Opened, openApp } from "./open.ts";

/** Opens the database and the last job (or the example), then shows the app. Keeping it for later comes after the first drawing. */
const opened = await openApp();
render(<Root opened={opened} />, document.getElementById("app")!);
await firstAnswer(opened);
if (import.meta.env.PROD) await keepOffline();

function firstAnswer({ desk }: Opened): Promise<void> {
  return new Promise((done) => {
    const deafen = desk.listen(() => {
      if (!desk.state.answer && !desk.state.broken) return;
      deafen();
      done();
    });
  });
}
