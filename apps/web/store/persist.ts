/** What the browser says to keeping the database for good. */
export type Persisted = "granted" | "refused" | "unasked";

let asked: Promise<Persisted> | null = null;

/** Asks the browser, once a start, not to clear the database when it runs short of room. */
export function askToKeep(): Promise<Persisted> {
  asked ??= ask();
  return asked;
}

async function ask(): Promise<Persisted> {
  try {
    if (!navigator.storage?.persist) return "unasked";
    return (await navigator.storage.persist()) ? "granted" : "refused";
  } catch {
    return "unasked";
  }
}
