/** Whether the app is kept on this device, and whether a newer one waits for its next start. */
export interface OfflineState {
  ready: boolean;
  waiting: boolean;
}

const tellers = new Set<() => void>();
let state: OfflineState = { ready: false, waiting: false };

export const offline = {
  get state() {
    return state;
  },
  listen(tell: () => void): () => void {
    tellers.add(tell);
    return () => void tellers.delete(tell);
  },
};

/** Puts the app into the browser's keeping once the page stands. A newer version is fetched and waits; it never takes over an open page. */
export async function keepOffline(): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  try {
    const registration = await navigator.serviceWorker.register("./sw.js", { scope: "./" });
    const look = () => put({ waiting: registration.waiting !== null && registration.active !== null });
    registration.addEventListener("updatefound", () => {
      registration.installing?.addEventListener("statechange", look);
    });
    look();
    await navigator.serviceWorker.ready;
    put({ ready: true });
  } catch {
    // No secure place, or private browsing: the app works as long as there is a signal, and does not say otherwise.
  }
}

function put(change: Partial<OfflineState>): void {
  state = { ...state, ...change };
  for (const tell of tellers) tell();
}
