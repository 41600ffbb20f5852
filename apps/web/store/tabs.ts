import type { Tabs } from "./store.ts";

/** Tells the other tabs of this browser that a project's log has grown. */
export function openTabs(name = "rowline"): Tabs {
  const channel = new BroadcastChannel(name);
  return {
    tell: (project) => channel.postMessage(project),
    listen(heard) {
      const hear = (event: MessageEvent<unknown>) => {
        if (typeof event.data === "string") heard(event.data);
      };
      channel.addEventListener("message", hear);
      return () => channel.removeEventListener("message", hear);
    },
  };
}
