import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { extname, join, relative, sep } from "node:path";
import { gzipSync } from "node:zlib";

interface Stored {
  bytes: Buffer;
  /** Null where packing gains nothing. */
  packed: Buffer | null;
  type: string;
  etag: string;
  /** True for files whose name changes with their content. */
  hashed: boolean;
}

/**
 * A server of one folder's files. The folder is read once, whole; a request can only name what was found then, so no path leads out of it.
 * Cost: the folder's size in memory (about 3 MB).
 */
export function staticServer(folder: string): Server {
  const files = readFolder(folder);
  return createServer((request, response) => answer(files, request, response));
}

const TYPES: Record<string, string> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".webmanifest": "application/manifest+json; charset=utf-8",
  ".svg": "image/svg+xml; charset=utf-8",
  ".png": "image/png",
  ".woff": "font/woff",
  ".woff2": "font/woff2",
  ".wasm": "application/wasm",
};
const PACKABLE = /^(text\/|application\/(json|manifest|wasm)|image\/svg)/;

/** Only our own files: no script or style in a page, no frame round it, nothing from elsewhere. Wasm is for importers. */
const POLICY = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "img-src 'self' blob: data:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

function readFolder(folder: string): Map<string, Stored> {
  const files = new Map<string, Stored>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath, entry.name);
    const bytes = readFileSync(path);
    const type = TYPES[extname(path)] ?? "application/octet-stream";
    const packed = PACKABLE.test(type) ? gzipSync(bytes, { level: 9 }) : null;
    const name = relative(folder, path).split(sep).join("/");
    const etag = `"${createHash("sha256").update(bytes).digest("base64url").slice(0, 27)}"`;
    files.set(`/${name}`, {
      bytes,
      packed: packed && packed.length < bytes.length ? packed : null,
      type,
      etag,
      hashed: name.startsWith("assets/"),
    });
  }
  const index = files.get("/index.html");
  if (index) files.set("/", index);
  return files;
}

function answer(files: Map<string, Stored>, request: IncomingMessage, response: ServerResponse): void {
  response.setHeader("Content-Security-Policy", POLICY);
  response.setHeader("X-Content-Type-Options", "nosniff");
  response.setHeader("Referrer-Policy", "no-referrer");
  response.setHeader("Cross-Origin-Opener-Policy", "same-origin");
  if (request.method !== "GET" && request.method !== "HEAD") {
    response.setHeader("Allow", "GET, HEAD");
    plain(response, 405, "Only GET and HEAD.");
    return;
  }
  const file = files.get(pathOf(request.url ?? "/"));
  if (!file) {
    plain(response, 404, "There is no such file here.");
    return;
  }
  response.setHeader("ETag", file.etag);
  response.setHeader("Vary", "Accept-Encoding");
  response.setHeader("Cache-Control", file.hashed ? "public, max-age=31536000, immutable" : "no-cache");
  if ((request.headers["if-none-match"] ?? "").split(/\s*,\s*/).includes(file.etag)) {
    response.writeHead(304).end();
    return;
  }
  const packed = file.packed && /\bgzip\b/.test(String(request.headers["accept-encoding"] ?? "")) ? file.packed : null;
  if (packed) response.setHeader("Content-Encoding", "gzip");
  const body = packed ?? file.bytes;
  response.writeHead(200, { "Content-Type": file.type, "Content-Length": body.length });
  response.end(request.method === "HEAD" ? undefined : body);
}

/** The path without query; what cannot be decoded names no file. */
function pathOf(url: string): string {
  try {
    return decodeURIComponent(url.replace(/[?#].*$/s, ""));
  } catch {
    return "";
  }
}

function plain(response: ServerResponse, status: number, words: string): void {
  response.writeHead(status, { "Content-Type": "text/plain; charset=utf-8" }).end(`${words}\n`);
}
