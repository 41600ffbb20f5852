import { Type } from "typebox";
import { LIMITS } from "../base/limits.ts";
import { CLOSED, name, point, quantity } from "../job/fields.ts";
import type { Rule } from "../read/rule.ts";

const { Array: List, Object: Group, Optional, Unsafe } = Type;
export const PROGRESS_FORMAT = "rowline/progress@1";
/** Most events of one file. */
const EVENTS_MAX = 200_000;

const id = (title: string, description: string) => name(title, description, { minLength: 1 });

/** An event: who, when, and one kind of thing that was done or measured. */
function event<const K extends string, F extends Type.TProperties>(kind: K, description: string, fields: F) {
  return Group(
    {
      kind: Type.Literal(kind, { title: "Kind", description }),
      id: id("Id", "Its own, never used twice."),
      when: Type.String({
        title: "When",
        description: "Day and time, as the phone had it.",
        pattern: "^\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}(:\\d{2}(\\.\\d+)?)?(Z|[+-]\\d{2}:\\d{2})?$",
        examples: ["2026-05-14T09:30:00Z"],
      }),
      by: id("By", "Name of who did it."),
      ...fields,
    },
    { ...CLOSED, title: kind },
  );
}

const size = (title: string, description: string) => quantity(title, "mm", description, { above: 0, max: 20_000 });
const row = Type.Integer({ title: "Row", description: "Of the plan.", minimum: 0, maximum: 1e6 });

const eventSchema = Type.Union(
  [
    event("laid", "A piece lies.", { piece: id("Piece", "Of the plan.") }),
    event("line", "A row's upper edge was measured from the datum at both ends.", {
      row,
      v: Unsafe<[number, number]>({
        type: "array",
        title: "v",
        description: "Distance from the datum at least u and at greatest u. Unit: mm.",
        prefixItems: [
          { type: "number", minimum: -LIMITS.extentMm, maximum: LIMITS.extentMm, "x-unit": "mm" },
          { type: "number", minimum: -LIMITS.extentMm, maximum: LIMITS.extentMm, "x-unit": "mm" },
        ],
        items: false,
        minItems: 2,
        maxItems: 2,
      }),
    }),
    event("gap", "An end gap was measured.", {
      joint: Unsafe<[string, string]>({
        type: "array",
        title: "Joint",
        description: "The two pieces that meet there.",
        prefixItems: [
          { type: "string", minLength: 1, maxLength: LIMITS.nameLength },
          { type: "string", minLength: 1, maxLength: LIMITS.nameLength },
        ],
        items: false,
        minItems: 2,
        maxItems: 2,
      }),
      mm: quantity("Gap", "mm", "As measured.", { min: 0, max: 200 }),
    }),
    event("broken", "A board or a piece is spoilt.", {
      board: Optional(id("Board", "Of the plan.")),
      piece: Optional(id("Piece", "Of the plan.")),
    }),
    event("offcut", "A length at hand.", { length: size("Length", "Usable."), width: size("Width", "Usable.") }),
    event("hole", "Where a clip's hole really is.", {
      clip: id("Clip", "Of the plan."),
      at: point("At", "Site frame. Unit: mm."),
    }),
    event("wall", "A side as it really runs.", {
      side: Type.Integer({ title: "Side", description: "Of the job.", minimum: 0, maximum: LIMITS.ringVertices }),
      points: List(point("Point", "Site frame. Unit: mm."), {
        title: "Points",
        minItems: 2,
        maxItems: LIMITS.ringVertices,
      }),
    }),
    event("level", "A level of the base.", {
      at: Unsafe<[number, number, number]>({
        type: "array",
        title: "At",
        description: "x, y, z, site frame. Unit: mm.",
        prefixItems: Array.from({ length: 3 }, () => ({
          type: "number",
          minimum: -1e10,
          maximum: 1e10,
          "x-unit": "mm",
        })),
        items: false,
        minItems: 3,
        maxItems: 3,
      }),
    }),
    event("undo", "An earlier event does not count.", { event: id("Event", "Its id.") }),
  ],
  { title: "Event", description: "Events are only ever added at the end." },
);

const hash = (title: string) =>
  Type.String({
    title,
    description: "Lower-case hex SHA-256 of its RFC 8785 form.",
    pattern: "^[0-9a-f]{64}$",
    examples: ["0f".repeat(32)],
  });

export const progressSchema = Group(
  {
    format: Type.Literal(PROGRESS_FORMAT, { title: "Format", description: "Which file this is, and its version." }),
    job: hash("Job"),
    plan: hash("Plan"),
    events: List(eventSchema, { title: "Events", maxItems: EVENTS_MAX }),
  },
  { ...CLOSED, title: "Rowline progress", description: "What was really done. Lengths mm." },
);

export const progressRule = progressSchema as unknown as Rule;
export type ProgressEvent = Type.Static<typeof eventSchema>;
export type ProgressFile = Type.Static<typeof progressSchema>;
export type EventKind = ProgressEvent["kind"];
export type EventOf<K extends EventKind> = Extract<ProgressEvent, { kind: K }>;

/** The published JSON Schema (2020-12) of the progress file. */
export function exportProgressSchema(): Record<string, unknown> {
  const plain = JSON.parse(JSON.stringify(progressSchema)) as Record<string, unknown>;
  return { $schema: "https://json-schema.org/draft/2020-12/schema", $id: "urn:rowline:progress:1", ...plain };
}
