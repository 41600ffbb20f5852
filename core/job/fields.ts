import { Type } from "typebox";
import { LIMITS } from "../base/limits.ts";

/** The kinds of field a job is made of. Each carries title, meaning, unit, bounds and default: the published schema is the manual. */

/** Keys of other programs are let through in every object, anything else unknown is refused. */
export const CLOSED = { additionalProperties: false, patternProperties: { "^x-": {} } };

/** Farthest coordinate, mm: national grids fit, sums stay exact in whole micrometres. */
export const COORDINATE_MAX_MM = 1e10;

/** Greatest height, mm: ten kilometres above or below the datum. */
const HEIGHT_MAX_MM = 1e7;

interface Bounds {
  min?: number;
  /** The bound itself is refused. */
  above?: number;
  max?: number;
  default?: number | null;
}

/** A number with its unit and bounds. */
export function quantity(title: string, unit: string, description: string, bounds: Bounds) {
  return Type.Number(numberOptions(title, unit, description, bounds));
}

/** A whole number. */
export function count(title: string, description: string, bounds: Bounds) {
  return Type.Integer(numberOptions(title, "", description, bounds));
}

function numberOptions(title: string, unit: string, description: string, bounds: Bounds) {
  return {
    title,
    description: unit === "" ? description : `${description} Unit: ${unit}.`,
    ...(unit === "" ? {} : { "x-unit": unit }),
    ...(bounds.min === undefined ? {} : { minimum: bounds.min }),
    ...(bounds.above === undefined ? {} : { exclusiveMinimum: bounds.above }),
    ...(bounds.max === undefined ? {} : { maximum: bounds.max }),
    ...(bounds.default === undefined ? {} : { default: bounds.default }),
  };
}

export function name(title: string, description: string, options: { default?: string; minLength?: number } = {}) {
  return Type.String({ title, description, maxLength: LIMITS.nameLength, ...options });
}

/** One of several words; the first is the default unless another is named. */
export function choice<const C extends readonly string[]>(
  title: string,
  description: string,
  choices: C,
  ...given: [(C[number] | null)?]
) {
  const preset = given.length === 0 ? choices[0]! : given[0];
  return Type.Unsafe<C[number]>({
    type: "string",
    enum: [...choices],
    title,
    description,
    ...(preset === null ? {} : { default: preset }),
  });
}

export function yes(title: string, description: string, preset: boolean) {
  return Type.Boolean({ title, description, default: preset });
}

/** true, false or a word for it; "unknown" is an answer. */
export function unknowable(title: string, description: string, preset: boolean | "unknown") {
  return Type.Unsafe<boolean | "yes" | "no" | "unknown">({
    anyOf: [{ type: "boolean" }, { type: "string", enum: ["yes", "no", "unknown"] }],
    title,
    description,
    default: preset,
  });
}

/** The value, or null: "you choose, and say why". The value's own default holds unless null is the default. */
export function orNull<T extends object>(inner: T & Type.TSchema, preset?: null) {
  const {
    title,
    description,
    default: own,
    ...rest
  } = inner as { title?: string; description?: string; default?: unknown };
  const fallback = preset === null ? null : own;
  return Type.Union([rest as unknown as T & Type.TSchema, Type.Null()], {
    ...(title === undefined ? {} : { title }),
    ...(description === undefined ? {} : { description }),
    ...(fallback === undefined ? {} : { default: fallback }),
  });
}

const COORDINATE = { type: "number", minimum: -COORDINATE_MAX_MM, maximum: COORDINATE_MAX_MM, "x-unit": "mm" };

/** [x, y], mm. */
export function point(title: string, description: string) {
  return Type.Unsafe<[number, number]>({
    type: "array",
    title,
    description,
    prefixItems: [
      { ...COORDINATE, title: "x" },
      { ...COORDINATE, title: "y" },
    ],
    items: false,
    minItems: 2,
    maxItems: 2,
  });
}

/** [x, y, z], mm. */
export function level() {
  return Type.Unsafe<[number, number, number]>({
    type: "array",
    title: "Level reading",
    description: "x, y and height of the base there, upward. Unit: mm.",
    prefixItems: [
      { ...COORDINATE, title: "x" },
      { ...COORDINATE, title: "y" },
      { type: "number", minimum: -HEIGHT_MAX_MM, maximum: HEIGHT_MAX_MM, "x-unit": "mm", title: "z" },
    ],
    items: false,
    minItems: 3,
    maxItems: 3,
  });
}

/** A closed ring of [x, y] or [x, y, bulge]. */
export function ring(title: string, description: string) {
  const vertex = Type.Unsafe<[number, number] | [number, number, number]>({
    type: "array",
    title: "Vertex",
    description:
      "[x, y] in mm, or [x, y, bulge]: bulge = tan(a quarter of the arc's angle) of the edge that starts here, positive where the arc runs counter-clockwise.",
    prefixItems: [
      { ...COORDINATE, title: "x" },
      { ...COORDINATE, title: "y" },
      { type: "number", title: "bulge" },
    ],
    items: false,
    minItems: 2,
    maxItems: 3,
  });
  return Type.Array(vertex, { title, description, minItems: 2, maxItems: LIMITS.ringVertices });
}
