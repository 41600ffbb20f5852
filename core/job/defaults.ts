import type { Rule } from "../read/rule.ts";

export interface Filled {
  value: unknown;
  /** Paths of the defaults used, in schema order; places in lists are written [] and named once. */
  used: string[];
}

/**
 * Fills in what was left out, by the defaults written in the schema itself, so that the published schema and what
 * is planned with cannot drift apart. The given value is not changed; keys of other programs (x-) are left behind.
 * Expects a value the schema accepts; O(size of the value).
 */
export function withDefaults(schema: Rule, given: unknown): Filled {
  const used = new Set<string>();
  return { value: fill(schema, given, "", used), used: [...used] };
}

function fill(rule: Rule, given: unknown, path: string, used: Set<string>): unknown {
  if (rule.anyOf) {
    const branch = rule.anyOf.find((one) => holds(one, given));
    return branch ? fill(branch, given, path, used) : given;
  }
  if (Array.isArray(given)) {
    const rest = typeof rule.items === "object" ? rule.items : null;
    return rest && !isLeaf(rest) ? given.map((one) => fill(rest, one, `${path}[]`, used)) : given;
  }
  if (typeof given !== "object" || given === null) return given;
  const source = given as Record<string, unknown>;
  if (!rule.properties) {
    return Object.fromEntries(Object.entries(source).filter(([key]) => !key.startsWith("x-")));
  }
  const out: Record<string, unknown> = {};
  for (const [key, child] of Object.entries(rule.properties)) {
    const at = path === "" ? key : `${path}.${key}`;
    if (Object.hasOwn(source, key)) out[key] = fill(child, source[key], at, used);
    else out[key] = missing(child, at, used);
  }
  return out;
}

/** A point, a reading: nothing in it can be left out. */
function isLeaf(rule: Rule): boolean {
  return rule.prefixItems !== undefined;
}

function missing(rule: Rule, path: string, used: Set<string>): unknown {
  if (rule.default !== undefined) {
    if (counts(rule.default)) used.add(path);
    return structuredCopy(rule.default);
  }
  const group = [rule, ...(rule.anyOf ?? [])].find((one) => one.properties);
  return group ? fill(group, {}, path, used) : undefined;
}

/** An empty list or "nothing said" is not a figure anyone relied on. */
function counts(value: unknown): boolean {
  if (value === null || value === "") return false;
  return typeof value !== "object" || Object.keys(value).length > 0;
}

function holds(rule: Rule, given: unknown): boolean {
  if (rule.anyOf) return rule.anyOf.some((one) => holds(one, given));
  if (rule.properties) return typeof given === "object" && given !== null && !Array.isArray(given);
  if (rule.type === "array") return Array.isArray(given);
  if (rule.type === "null") return given === null;
  return typeof given !== "object";
}

function structuredCopy(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value));
}
