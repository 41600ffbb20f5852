import { LIMITS } from "../base/limits.ts";
import type { Found, Kind, ReadCode, ReadProblems } from "./codes.ts";
import { nearest } from "./nearest.ts";
import type { JsonPath, PathProblem } from "./problem.ts";
import type { Rule } from "./rule.ts";

export interface Validation {
  problems: PathProblem<ReadCode, ReadProblems[ReadCode]>[];
  /** Problems beyond the limit, counted only. */
  unlisted: number;
  /** Where numbers beyond a double stand: told of while the text is read, so here only their places. */
  notFinite: JsonPath[];
}

/**
 * Holds a value against a schema and tells of every breach. The schema is interpreted, never compiled: no `new Function`,
 * so it runs under a strict content policy. Keys that begin with `x-` belong to other programs and are passed over.
 * A misspelt key is one problem, not two: its value is judged under the name it was meant to have.
 * O(size of the value).
 */
export function validate(schema: Rule, value: unknown): Validation {
  const walk: Walk = { problems: [], unlisted: 0, notFinite: [], path: [], places: null, schema };
  visit(walk, schema, value);
  return { problems: walk.problems, unlisted: walk.unlisted, notFinite: walk.notFinite };
}

interface Walk {
  problems: PathProblem<ReadCode, ReadProblems[ReadCode]>[];
  unlisted: number;
  notFinite: JsonPath[];
  /** Where we are; copied only when something is wrong. */
  path: (string | number)[];
  /** Every key of the schema with the path it stands at; made when first needed. */
  places: Map<string, string> | null;
  schema: Rule;
}

function tell<C extends ReadCode>(walk: Walk, code: C, data: ReadProblems[C], key?: string): void {
  if (walk.problems.length >= LIMITS.problems) {
    walk.unlisted++;
    return;
  }
  const path = key === undefined ? [...walk.path] : [...walk.path, key];
  walk.problems.push({ path, code, data, onKey: code === "unknownKey" });
}

function visit(walk: Walk, rule: Rule, value: unknown): void {
  if (rule.anyOf) {
    visitChoice(walk, rule, value);
    return;
  }
  if (rule.enum || typeof rule.const === "string") {
    visitEnum(walk, [rule], value);
    return;
  }
  if (rule.const !== undefined) {
    if (value !== rule.const) tellType(walk, [rule], value);
    return;
  }
  if (rule.type === undefined) return;
  if (!fits(rule, value)) {
    tellType(walk, [rule], value);
    return;
  }
  if (rule.type === "object") visitObject(walk, rule, value as Record<string, unknown>);
  else if (rule.type === "array") visitList(walk, rule, value as unknown[]);
  else if (rule.type === "string") visitText(walk, rule, value as string);
  else if (rule.type === "number" || rule.type === "integer") visitNumber(walk, rule, value as number);
}

/** One of several: the branches of the value's own kind decide, so the sentence speaks of what was meant. */
function visitChoice(walk: Walk, rule: Rule, value: unknown): void {
  const branches = flatten(rule);
  const fitting = branches.filter((branch) => fits(branch, value));
  if (fitting.length === 0) {
    tellType(walk, branches, value);
    return;
  }
  if (typeof value === "string" && fitting.every((branch) => branch.enum || typeof branch.const === "string")) {
    visitEnum(walk, fitting, value);
    return;
  }
  const exact = fitting.filter((branch) => branch.const !== undefined);
  if (exact.some((branch) => branch.const === value)) return;
  const open = fitting.filter((branch) => branch.const === undefined);
  const mark = open.length > 1 ? markOf(open) : null;
  if (mark !== null) visitMarked(walk, open, mark, value as Record<string, unknown>);
  else if (open[0]) visit(walk, open[0], value);
  else tellType(walk, branches, value);
}

/** The key whose constant tells object branches apart: an event's kind. */
function markOf(branches: readonly Rule[]): string | null {
  const keys = Object.keys(branches[0]!.properties ?? {});
  return keys.find((key) => branches.every((branch) => typeof branch.properties?.[key]?.const === "string")) ?? null;
}

function visitMarked(walk: Walk, branches: readonly Rule[], mark: string, value: Record<string, unknown>): void {
  const branch = branches.find((one) => one.properties![mark]!.const === value[mark]);
  if (branch) {
    visit(walk, branch, value);
    return;
  }
  const rules = branches.map((one) => one.properties![mark]!);
  if (!Object.hasOwn(value, mark)) {
    tell(walk, "missing", { key: mark, expected: kindsOf(rules), title: rules[0]!.title ?? mark }, mark);
    return;
  }
  walk.path.push(mark);
  visitEnum(walk, rules, value[mark]);
  walk.path.pop();
}

function flatten(rule: Rule): Rule[] {
  return rule.anyOf ? rule.anyOf.flatMap(flatten) : [rule];
}

function visitEnum(walk: Walk, rules: readonly Rule[], value: unknown): void {
  const choices = choicesOf(rules);
  if (typeof value !== "string") {
    tellType(walk, rules, value);
    return;
  }
  if (choices.includes(value)) return;
  tell(walk, "wrongChoice", { found: short(value), choices, nearest: nearest(value, choices) });
}

function choicesOf(rules: readonly Rule[]): string[] {
  return rules.flatMap((rule) => (rule.enum ? [...rule.enum] : typeof rule.const === "string" ? [rule.const] : []));
}

function visitObject(walk: Walk, rule: Rule, value: Record<string, unknown>): void {
  const known = rule.properties ?? {};
  const keys = Object.keys(value);
  const meant = new Set<string>();
  for (const key of keys) {
    if (key.startsWith("x-")) continue;
    let under = Object.hasOwn(known, key) ? known[key] : patternRule(rule, key);
    if (!under) {
      if (rule.additionalProperties !== false) continue;
      const near = nearest(key, Object.keys(known));
      const elsewhere = near === null ? elsewhereOf(walk, key) : null;
      tell(walk, "unknownKey", { key: short(key), nearest: near, elsewhere, known: Object.keys(known) }, key);
      if (near === null || Object.hasOwn(value, near) || meant.has(near)) continue;
      meant.add(near);
      under = known[near];
    }
    walk.path.push(key);
    if (under) visit(walk, under, value[key]);
    walk.path.pop();
  }
  for (const key of rule.required ?? []) {
    if (Object.hasOwn(value, key) || meant.has(key)) continue;
    const child = known[key];
    tell(walk, "missing", { key, expected: child ? kindsOf(flatten(child)) : [], title: child?.title ?? key }, key);
  }
}

function patternRule(rule: Rule, key: string): Rule | undefined {
  for (const [pattern, under] of Object.entries(rule.patternProperties ?? {})) {
    if (pattern !== "^x-" && new RegExp(pattern, "u").test(key)) return under;
  }
  return undefined;
}

/** A key that is right, but somewhere else: `width` at the top is `board.width`. */
function elsewhereOf(walk: Walk, key: string): string | null {
  if (!walk.places) {
    walk.places = new Map();
    collectPlaces(walk.schema, "", walk.places, 0);
  }
  return walk.places.get(key) ?? null;
}

function collectPlaces(rule: Rule, at: string, places: Map<string, string>, depth: number): void {
  if (depth > 6) return;
  for (const branch of flatten(rule)) {
    for (const [key, child] of Object.entries(branch.properties ?? {})) {
      const place = at === "" ? key : `${at}.${key}`;
      if (!places.has(key)) places.set(key, place);
      collectPlaces(child, place, places, depth + 1);
    }
    if (typeof branch.items === "object") collectPlaces(branch.items, `${at}[]`, places, depth + 1);
  }
}

function visitList(walk: Walk, rule: Rule, value: unknown[]): void {
  if (rule.minItems !== undefined && value.length < rule.minItems) {
    tell(walk, "tooFew", { found: value.length, limit: rule.minItems });
  }
  if (rule.maxItems !== undefined && value.length > rule.maxItems) {
    tell(walk, "tooMany", { found: value.length, limit: rule.maxItems });
  }
  const fixed = rule.prefixItems ?? [];
  const rest = typeof rule.items === "object" ? rule.items : undefined;
  for (let i = 0; i < value.length && i < LIMITS.levels; i++) {
    const under = fixed[i] ?? rest;
    if (!under) break;
    walk.path.push(i);
    visit(walk, under, value[i]);
    walk.path.pop();
  }
}

function visitText(walk: Walk, rule: Rule, value: string): void {
  if (rule.minLength !== undefined && value.length < rule.minLength) {
    tell(walk, "textTooShort", { found: value.length, limit: rule.minLength });
  } else if (rule.maxLength !== undefined && value.length > rule.maxLength) {
    tell(walk, "textTooLong", { found: value.length, limit: rule.maxLength });
  } else if (rule.pattern !== undefined && !new RegExp(rule.pattern, "u").test(value)) {
    tell(walk, "textPattern", { found: short(value), example: String(rule.examples?.[0] ?? rule.default ?? "") });
  }
}

function visitNumber(walk: Walk, rule: Rule, value: number): void {
  const unit = rule["x-unit"] ?? "";
  if (!Number.isFinite(value)) {
    if (walk.notFinite.length < LIMITS.problems) walk.notFinite.push([...walk.path]);
    return;
  }
  if (rule.type === "integer" && !Number.isInteger(value)) {
    tell(walk, "notWhole", { found: value });
    return;
  }
  const { minimum, exclusiveMinimum, maximum, exclusiveMaximum } = rule;
  if (minimum !== undefined && value < minimum)
    tell(walk, "tooSmall", { found: value, limit: minimum, unit, excluded: false });
  else if (exclusiveMinimum !== undefined && value <= exclusiveMinimum) {
    tell(walk, "tooSmall", { found: value, limit: exclusiveMinimum, unit, excluded: true });
  } else if (maximum !== undefined && value > maximum) {
    tell(walk, "tooGreat", { found: value, limit: maximum, unit, excluded: false });
  } else if (exclusiveMaximum !== undefined && value >= exclusiveMaximum) {
    tell(walk, "tooGreat", { found: value, limit: exclusiveMaximum, unit, excluded: true });
  }
}

function fits(rule: Rule, value: unknown): boolean {
  if (rule.enum) return typeof value === "string";
  if (rule.const !== undefined) return typeof value === typeof rule.const;
  switch (rule.type) {
    case undefined:
      return true;
    case "object":
      return typeof value === "object" && value !== null && !Array.isArray(value);
    case "array":
      return Array.isArray(value);
    case "null":
      return value === null;
    case "integer":
      return typeof value === "number";
    default:
      return typeof value === rule.type;
  }
}

function tellType(walk: Walk, rules: readonly Rule[], value: unknown): void {
  tell(walk, "wrongType", { found: foundOf(value), expected: kindsOf(rules), choices: choicesOf(rules) });
}

const KINDS: Record<string, Kind> = {
  object: "object",
  array: "list",
  string: "text",
  number: "number",
  integer: "whole",
  boolean: "yesno",
  null: "null",
};

function kindsOf(rules: readonly Rule[]): Kind[] {
  const kinds = rules.map((rule): Kind => {
    if (rule.enum) return "text";
    if (rule.const !== undefined) return KINDS[typeof rule.const] ?? "text";
    return KINDS[rule.type ?? ""] ?? "object";
  });
  return [...new Set(kinds)];
}

/** What stands in the file, short enough for a sentence. */
export function foundOf(value: unknown): Found {
  if (value === undefined) return { kind: "nothing", shown: "" };
  if (value === null) return { kind: "null", shown: "null" };
  if (Array.isArray(value)) return { kind: "list", shown: String(value.length) };
  if (typeof value === "object") return { kind: "object", shown: String(Object.keys(value).length) };
  if (typeof value === "string") return { kind: "text", shown: JSON.stringify(short(value)) };
  return { kind: typeof value === "number" ? "number" : "yesno", shown: String(value) };
}

function short(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}...` : text;
}
