import { render } from "preact";
import { Root } from "./app.tsx";
import { openApp } from "./open.ts";

/** Opens the database and the last job (or the example), then shows the app. */
const opened = await openApp();
render(<Root opened={opened} />, document.getElementById("app")!);
