/**
 * Spoils a sound job: hostile values where the schema has a field, odd but legal values at its bounds, twisted rings,
 * damaged text. The schema itself says what may stand where, so a new field is spoilt without a word here.
 */

import { jobRule } from "../core/job/schema.ts";
import type { Rule } from "../core/read/rule.ts";
import type { Chance } from "../fixtures/random.ts";
import { spoilRing } from "./ring.ts";
import { spoilText } from "./text.ts";

type Obj = Record<string, unknown>;

/** One spoilt job text. `wild` of 0 keeps to what the schema allows; 1 to 3 goes further beyond it. */
export function spoilJob(given: Obj, c: Chance): { text: string; wild: number } {
  const job = structuredClone(given);
  const wild = c.pick([0, 1, 1, 2, 2, 3, 3, 3]);
  const rounds = c.int(1, wild === 0 ? 6 : 4);
  for (let i = 0; i < rounds; i++) spoilOnce(job, c, wild > 0 && c.once(2));
  const text = writeOut(job, c.once(40) ? 1 : undefined);
  return { text: wild === 3 ? spoilText(text, c) : text, wild };
}

/** Numbers JSON cannot hold as a value stand in the text as written. */
const RAW = "\u0001raw:";
function writeOut(job: Obj, indent?: number): string {
  return JSON.stringify(job, null, indent).replace(/"\\u0001raw:([^"]*)"/g, (_, token: string) => token);
}

function spoilOnce(job: Obj, c: Chance, beyond: boolean): void {
  if (c.once(3)) {
    spoilRing(job, c);
    return;
  }
  const { holder, key, rule } = walkDown(job, jobRule, c);
  const value = beyond ? hostile(rule, holder[key as never], c) : legal(rule, c);
  if (value === OMIT) delete holder[key as never];
  else put(holder, key, value);
  if (beyond && c.once(5)) put(holder, c.pick(KEYS), c.pick([1, null, {}, [], "x"]));
}

function put(holder: Obj | unknown[], key: string | number, value: unknown): void {
  if (Array.isArray(holder) && typeof key !== "number") return;
  Object.defineProperty(holder, key, { value, enumerable: true, configurable: true, writable: true });
}

interface Place {
  holder: Obj;
  key: string | number;
  rule: Rule;
}

/** From the root down some way, making what is not there: a field of the schema with the object that holds it. */
function walkDown(value: Obj, rule: Rule, c: Chance): Place {
  const names = Object.keys(rule.properties ?? {});
  const key = c.pick(names);
  const inner = branchOf(rule.properties![key]!, c);
  if (inner.type === "object" && inner.properties && !c.once(6)) {
    const held = value[key];
    const child = isObject(held) ? held : {};
    put(value, key, child);
    return walkDown(child, inner, c);
  }
  if (inner.type === "array" && typeof inner.items === "object" && !c.once(4)) {
    const list = value[key];
    const item = branchOf(inner.items, c);
    if (Array.isArray(list) && list.length > 0) {
      const at = c.int(0, list.length - 1);
      if (item.type === "object" && isObject(list[at])) return walkDown(list[at], item, c);
      return { holder: list as unknown as Obj, key: at, rule: item };
    }
  }
  return { holder: value, key, rule: inner };
}

function branchOf(rule: Rule, c: Chance): Rule {
  return rule.anyOf ? branchOf(c.pick(rule.anyOf), c) : rule;
}

function isObject(value: unknown): value is Obj {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

const OMIT = Symbol("left out");

/** A value the schema allows, as odd as may be. */
function legal(rule: Rule, c: Chance): unknown {
  if (rule.anyOf) return legal(branchOf(rule, c), c);
  if (rule.const !== undefined) return rule.const;
  if (rule.enum) return c.pick(rule.enum);
  switch (rule.type) {
    case "null":
      return null;
    case "boolean":
      return c.once(2);
    case "number":
    case "integer":
      return legalNumber(rule, c);
    case "string":
      return rule.pattern
        ? (rule.examples?.[0] ?? "EUR")
        : c
            .pick(NAMES)
            .padEnd(rule.minLength ?? 0, "x")
            .slice(0, rule.maxLength);
    case "array":
      if (rule.prefixItems)
        return rule.prefixItems
          .slice(0, c.int(rule.minItems ?? 0, rule.prefixItems.length))
          .map((one) => legal(one, c));
      return Array.from({ length: c.int(rule.minItems ?? 0, Math.min(rule.maxItems ?? 4, 4)) }, () =>
        legal(rule.items as Rule, c),
      );
    default: {
      const out: Obj = {};
      for (const [key, inner] of Object.entries(rule.properties ?? {}))
        if (rule.required?.includes(key) || c.once(3)) out[key] = legal(inner, c);
      return out;
    }
  }
}

function legalNumber(rule: Rule, c: Chance): number {
  const low = rule.minimum ?? rule.exclusiveMinimum ?? -1e6;
  const high = rule.maximum ?? rule.exclusiveMaximum ?? 1e6;
  if (rule.type === "integer") return c.pick([low, low + 1, high, high - 1, c.int(low, Math.min(high, low + 20))]);
  const tiny = rule.exclusiveMinimum === undefined ? low : low + 1e-9;
  const usual = typeof rule.default === "number" ? rule.default : (low + high) / 2;
  return c.pick([
    tiny,
    high,
    Math.max(tiny, usual / c.pick([2, 3, 10, 1000])),
    Math.min(high, usual * c.pick([1.001, 2, 3, 10])),
    low + ((high - low) * c.int(1, 999)) / 1000,
    Math.max(tiny, Math.min(high, c.int(0, 4000) / 7)),
    Math.max(tiny, 1e-320),
  ]);
}

/** A value the schema forbids, or may. */
function hostile(rule: Rule, now: unknown, c: Chance): unknown {
  const kind = c.int(0, 9);
  if (kind === 0) return OMIT;
  if (kind === 1) return c.pick([null, true, false, 0, "", [], {}, [[]], [null], { a: 1 }]);
  if (kind === 2) return c.pick(TOKENS.map((token) => RAW + token));
  if (kind === 3) return c.pick(NAMES);
  if (kind === 4 && Array.isArray(now)) return mixed(now, c);
  if (rule.type === "number" || rule.type === "integer") {
    const edge = c.pick([rule.minimum, rule.maximum, rule.exclusiveMinimum, rule.exclusiveMaximum, 0]) ?? 0;
    return c.pick([
      edge - 1,
      edge + 1,
      edge + 1e-9,
      -edge,
      edge * 1e6,
      -1,
      -0.5,
      0.1 + 0.2,
      1e15,
      -1e15,
      9007199254740992,
    ]);
  }
  if (rule.enum) return c.pick([...NAMES, rule.enum[0]!.toUpperCase(), `${rule.enum[0]} `, ...KEYS]);
  return legal(rule, c);
}

function mixed(list: unknown[], c: Chance): unknown[] {
  const out = [...list];
  if (out.length === 0) return [null];
  const at = c.int(0, out.length - 1);
  const how = c.int(0, 4);
  if (how === 0) out.splice(at, 1);
  else if (how === 1) out.splice(at, 0, structuredClone(out[at]));
  else if (how === 2) out.reverse();
  else if (how === 3) out[at] = c.pick([null, [], {}, 0, "x", [1], [1, 2, 3, 4]]);
  else out.push(...structuredClone(list), ...structuredClone(list));
  return out;
}

const KEYS = [
  "__proto__",
  "constructor",
  "toString",
  "hasOwnProperty",
  "x-own",
  "widht",
  "",
  "length",
  "\u202e",
  "0",
  "valueOf",
];
const TOKENS = [
  "NaN",
  "Infinity",
  "-Infinity",
  "1e999",
  "-1e999",
  "-0",
  "1e-320",
  "1e15",
  "01",
  "+1",
  ".5",
  "1.",
  "0x10",
  "1e",
  "undefined",
  "'x'",
  '"\\ud800"',
  "1,",
  "//",
  "nul",
];
/** Names nobody should choose: each belongs to some writer or reader that could be misled by it. */
export const NAMES = [
  "",
  " ",
  "\u202ederutan",
  "<script>alert(1)</script>",
  "]]>&amp;<!--",
  '=HYPERLINK("http://x","y")',
  "+1+1",
  "@SUM(A1)",
  "-2+3|x",
  "../../x",
  "C:\\con",
  "%n%s%d",
  "%%u%%c%%d\\P{\\H3x;}^J\\U+0041",
  "\u{1f600}\u{1f468}\u200d\u{1f469}\u200d\u{1f467}",
  "a\u0000b",
  "tab\tline\nreturn\r\u2028\u2029end",
  "\u0007\u001b[31mred",
  "\u007f\u0085\u009f\ufffe\uffff",
  "e\u0301\u0301\u0301\u0301",
  "\u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627 \u4f60\u597d",
  "__proto__",
  "x".repeat(500),
  "W ".repeat(250),
  "$&$1$`",
  "0\r\nEOF",
  "board-1500",
];
