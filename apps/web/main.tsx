import { render } from "preact";
import { Root } from "./app.tsx";
import { keepOffline } from "./offline/offline.ts";
import { openApp } from "./open.ts";

/** Opens the database and the last job (or the example), then shows the app. */
render(<Root opened={await openApp()} />, document.getElementById("app")!);
if (import.meta.env.PROD) await keepOffline();
