import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex, utf8ToBytes } from "@noble/hashes/utils.js";
import canonicalize from "canonicalize";

/** Lower-case hex SHA-256 of the RFC 8785 form of a JSON value: the same file in any order of keys has the same hash. */
export function hashJson(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new Error("not a JSON value");
  return bytesToHex(sha256(utf8ToBytes(text)));
}
