/**
 * The service worker: keeps every file of one build, answers from there, and never mixes two builds. A newer build is fetched
 * whole beside the old one and waits until no page of the old one is open.
 */
/** Filled in when the app is built: all its files, and a name that changes with any of them. */
declare const ROWLINE_FILES: readonly string[];
declare const ROWLINE_BUILD: string;

interface Waits extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetched extends Event {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
const worker = self as unknown as {
  addEventListener(kind: "install" | "activate", hear: (event: Waits) => void): void;
  addEventListener(kind: "fetch", hear: (event: Fetched) => void): void;
  readonly clients: { claim(): Promise<void> };
  readonly registration: { readonly scope: string };
};
const PREFIX = "rowline-";
const NAME = PREFIX + ROWLINE_BUILD;

worker.addEventListener("install", (event) => event.waitUntil(keepAll()));
worker.addEventListener("activate", (event) => event.waitUntil(takeOver()));
worker.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method === "GET" && request.url.startsWith(worker.registration.scope)) event.respondWith(answer(request));
});

/** All files or none: a build that cannot be fetched whole is not installed. */
async function keepAll(): Promise<void> {
  const cache = await caches.open(NAME);
  // Files whose name is not made from their content are asked for past the browser's own store.
  await cache.addAll(
    ROWLINE_FILES.map((file) => new Request(file, { cache: file.startsWith("assets/") ? "default" : "reload" })),
  );
}

async function takeOver(): Promise<void> {
  for (const name of await caches.keys()) if (name.startsWith(PREFIX) && name !== NAME) await caches.delete(name);
  await worker.clients.claim();
}

async function answer(request: Request): Promise<Response> {
  const cache = await caches.open(NAME);
  const page = request.mode === "navigate";
  const kept = await cache.match(page ? "index.html" : request, { ignoreSearch: true });
  return kept ?? fetch(request);
}
