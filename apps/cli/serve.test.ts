import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { type AddressInfo, connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { readWhere } from "./serve.ts";
import { staticServer } from "./static.ts";

const outer = mkdtempSync(join(tmpdir(), "rowline-serve-"));
const folder = join(outer, "web");
mkdirSync(join(folder, "assets"), { recursive: true });
writeFileSync(join(outer, "secret.txt"), "not for anyone");
writeFileSync(join(folder, "index.html"), `<!doctype html>${"<p>terrace</p>".repeat(50)}`);
writeFileSync(join(folder, "assets", "a-1.js"), "export {};".repeat(40));
writeFileSync(join(folder, "manifest.webmanifest"), "{}");
const server = staticServer(folder);
let port = 0;
beforeAll(async () => {
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  port = (server.address() as AddressInfo).port;
});
afterAll(() => new Promise((done) => server.close(done)));
const get = (path: string, init: RequestInit = {}) => fetch(`http://127.0.0.1:${port}${path}`, init);

/** A request line as no well-behaved client would send it. */
function raw(line: string): Promise<string> {
  return new Promise((done, failed) => {
    let answer = "";
    const socket = connect(port, "127.0.0.1", () => socket.write(`${line}\r\nHost: x\r\nConnection: close\r\n\r\n`));
    socket.on("data", (chunk) => {
      answer += chunk;
    });
    socket.on("end", () => done(answer));
    socket.on("error", failed);
  });
}

test("files come with their type, a policy that allows no inline script, and an ETag that answers 304", async () => {
  const page = await get("/");
  expect(page.status).toBe(200);
  expect(page.headers.get("content-type")).toBe("text/html; charset=utf-8");
  expect(page.headers.get("cache-control")).toBe("no-cache");
  expect(page.headers.get("x-content-type-options")).toBe("nosniff");
  const policy = page.headers.get("content-security-policy")!;
  expect(policy).toContain("default-src 'self'");
  expect(policy).not.toContain("unsafe-inline");
  expect(policy).not.toContain("'unsafe-eval'");
  const etag = page.headers.get("etag")!;
  expect((await get("/", { headers: { "if-none-match": etag } })).status).toBe(304);
  expect((await get("/", { headers: { "if-none-match": '"other"' } })).status).toBe(200);
  const script = await get("/assets/a-1.js");
  expect(script.headers.get("content-type")).toBe("text/javascript; charset=utf-8");
  expect(script.headers.get("cache-control")).toContain("immutable");
  expect(await script.text()).toBe("export {};".repeat(40));
  expect((await get("/manifest.webmanifest")).headers.get("content-type")).toContain("application/manifest+json");
});

test("text is packed where the client takes it, and whole where it does not", async () => {
  expect((await get("/", { headers: { "accept-encoding": "gzip" } })).headers.get("content-encoding")).toBe("gzip");
  expect((await get("/", { headers: { "accept-encoding": "identity" } })).headers.get("content-encoding")).toBeNull();
});

test("no path leads out of the folder, and nothing is made or changed", async () => {
  const paths = [
    "/../secret.txt",
    "/%2e%2e/secret.txt",
    "/..%2fsecret.txt",
    "/assets/../../secret.txt",
    "//secret.txt",
    "/%",
    "/assets",
    "/assets/",
    "/..%5csecret.txt",
    "/index.html%00",
  ];
  for (const path of paths) {
    const answer = await raw(`GET ${path} HTTP/1.1`);
    expect(answer, path).toMatch(/^HTTP\/1\.1 404/);
    expect(answer).not.toContain("not for anyone");
  }
  for (const method of ["POST", "PUT", "DELETE"]) expect((await get("/", { method })).status).toBe(405);
  expect(await (await get("/", { method: "HEAD" })).text()).toBe("");
});

test("options: loopback and 4173 by default; every complaint at once, as sentences", () => {
  expect(readWhere([])).toEqual({ port: 4173, host: "127.0.0.1" });
  expect(readWhere(["--port", "0", "--host", "0.0.0.0"])).toEqual({ port: 0, host: "0.0.0.0" });
  for (const argv of [
    ["--port", "x"],
    ["--port", "70000"],
    ["--port"],
    ["--host"],
    ["--colour"],
    ["job.json"],
    ["--port", "-1"],
  ])
    expect(readWhere(argv), argv.join(" ")).toHaveProperty("sentences");
  expect(readWhere(["--port", "x", "--colour", "job.json"])).toMatchObject({ sentences: { length: 3 } });
});
