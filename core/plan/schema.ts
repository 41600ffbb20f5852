/**
 * The plan file's schema: what a reader holds it against, and what is published as JSON Schema 2020-12. Types: plan.ts.
 * Whether a plan is right is the judge's matter (core/check); the schema says only what a plan looks like.
 */
import { Type } from "typebox";
import { LIMITS } from "../base/limits.ts";
import { CLOSED, COORDINATE_MAX_MM } from "../job/fields.ts";
import type { Problem, Read } from "../read/problem.ts";
import { allOf, readAgainst } from "../read/read.ts";
import type { Rule } from "../read/rule.ts";
import type { PlanFile } from "./plan.ts";

const { Array: List, Object: Group, Optional } = Type;
export const PLAN_FORMAT = "rowline/plan@1";

/** Reads a plan file; every problem at once, with line and place. `file` names it in the problems. */
export function readPlan(text: string, file: string): Read<PlanFile> {
  const against = readAgainst(text, file, { format: PLAN_FORMAT, schema: planRule });
  const problems: Problem[] = allOf(against, [], file);
  if (problems.length > 0 || !against.judged) return { ok: false, problems };
  return { ok: true, value: against.value as PlanFile };
}

/** The published schema, JSON Schema 2020-12. */
export function exportPlanSchema(): Record<string, unknown> {
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    $id: PLAN_FORMAT,
    ...(JSON.parse(JSON.stringify(planSchema)) as Record<string, unknown>),
  };
}

const number = (title: string, unit: string, min = -1e18, max = 1e18) =>
  Type.Number({ title, ...(unit ? { "x-unit": unit } : {}), minimum: min, maximum: max });
const mm = (title: string) => number(title, "mm", -COORDINATE_MAX_MM, COORDINATE_MAX_MM);
const size = (title: string) => number(title, "mm", 0, COORDINATE_MAX_MM);
const whole = (title: string, max: number = LIMITS.boards * 100) => Type.Integer({ title, minimum: 0, maximum: max });
const text = (title: string) => Type.String({ title, maxLength: 4000 });
const id = (title: string) => Type.String({ title, minLength: 1, maxLength: LIMITS.nameLength });
const word = <const C extends readonly string[]>(title: string, words: C) =>
  Type.Unsafe<C[number]>({ type: "string", title, enum: [...words] });
const orNull = <T extends Type.TSchema>(inner: T) => Type.Union([inner, Type.Null()]);

/** A list of exactly these. */
function tuple(title: string, ...items: Type.TSchema[]) {
  return Type.Unsafe<unknown[]>({
    type: "array",
    title,
    prefixItems: items,
    items: false,
    minItems: items.length,
    maxItems: items.length,
  });
}
const xy = (title: string) => tuple(title, mm("x"), mm("y"));
const ring = (title: string) => List(xy("Corner"), { title, minItems: 3, maxItems: LIMITS.ringVertices * 64 });
const group = (title: string, fields: Record<string, Type.TSchema>) => Group(fields, { ...CLOSED, title });

const held = word("Held by", ["clips", "screws", "trim", "none"]);
const end = word("End", ["factory", "cut"]);
const edge = word("Edge", ["groove", "plain", "ripped"]);

const baseSchema = group("Base", {
  plane: group("Least-squares plane", { fall: number("Fall", "%"), towards: number("Downhill", "degrees") }),
  zone: group("Minimum-zone plane", {
    fall: number("Fall", "%"),
    towards: number("Downhill", "degrees"),
    halfWidth: size("Half width"),
    points: List(tuple("Point", mm("x"), mm("y"), mm("z")), { title: "Certificate" }),
  }),
  straightedge: orNull(
    group("Straightedge", { length: size("Length"), gap: size("Gap"), from: xy("From"), to: xy("To"), at: xy("At") }),
  ),
  facets: List(
    group("Facet", {
      ring: ring("Outline"),
      fall: number("Fall", "%"),
      towards: number("Downhill", "degrees"),
      halfWidth: size("Half width"),
    }),
    { title: "Facets" },
  ),
  puddles: List(
    group("Puddle", {
      at: xy("At"),
      depth: size("Depth"),
      area: number("Area", "mm2"),
      volume: number("Volume", "mm3"),
    }),
    {
      title: "Puddles",
    },
  ),
  preparation: List(
    group("Option", {
      option: word("Option", ["none", "patch", "plane", "facets"]),
      grind: number("Ground off", "mm3"),
      fill: number("Filled", "mm3"),
      mass: number("Mass", "kg"),
      cost: number("Cost", "minor units"),
      planes: List(group("Plane", { a: number("a", ""), b: number("b", ""), c: number("c", "mm") }), {
        title: "Planes",
      }),
      why: text("Why"),
    }),
    { title: "Preparation" },
  ),
  verdict: word("Verdict", ["accept", "prepare", "not-proven", "stop"]),
});

const pieceSchema = group("Piece", {
  id: id("Name"),
  row: whole("Row"),
  ring: ring("Outline"),
  holes: List(ring("Hole"), { title: "Holes" }),
  length: size("Length along the rows"),
  width: size("Width across the rows"),
  ends: tuple("Ends", end, end),
  edges: tuple("Edges, lower and upper", edge, edge),
  heldBy: tuple("What holds the edges", held, held),
  cutWhen: word("Cut when", ["ahead", "measured"]),
  board: id("Board"),
});

const boardSchema = group("Board", {
  id: id("Name"),
  length: size("Length"),
  parts: List(
    group("Part", {
      piece: id("Piece"),
      at: xy("Lower left corner in the board"),
      size: xy("Length and width"),
      turned: Type.Boolean({ title: "Turned by half a turn" }),
      ring: orNull(ring("Outline in the board's frame, where not the rectangle")),
    }),
    { title: "Parts" },
  ),
  offcuts: List(group("Offcut", { at: xy("Lower left corner"), size: xy("Length and width") }), { title: "Offcuts" }),
});

const figuresSchema = group("Figures", {
  area: number("Field", "mm2", 0),
  boards: whole("Boards"),
  boardsAtLeast: whole("No plan needs fewer boards than"),
  bound: group("Its proof", {
    scope: word("Scope", ["pieces", "joints"]),
    by: Optional(word("Measured along", ["area", "edges", "middle"])),
    scale: number("Scale", "", 0),
    duals: List(tuple("Dual", size("Length"), number("Worth", "", 0)), { title: "Duals" }),
  }),
  cuts: whole("Cuts across"),
  rips: whole("Cuts along"),
  waste: number("Waste", "mm2"),
  mass: number("Mass of the boards", "kg", 0),
  clips: group("Clips", { start: whole("Start"), seam: whole("Seam"), last: whole("Last"), end: whole("End") }),
  total: number("Total", "minor units"),
});

const planSchema = group("Plan", {
  format: Type.Literal(PLAN_FORMAT),
  summary: text("First line of every summary"),
  job: Type.String({ title: "Hash of the job", pattern: "^[0-9a-f]{64}$" }),
  engine: text("Version that made it"),
  defaults: List(text("Field"), { title: "Defaults used" }),
  reasons: List(group("Reason", { code: text("Code"), says: text("Sentence") }), { title: "Why the plan is as it is" }),
  base: orNull(baseSchema),
  frame: group("Row frame", { origin: xy("Origin"), angle: number("Direction of +u", "degrees") }),
  bond: group("Bond", {
    kind: word("Kind", ["half", "third", "free", "stack"]),
    length: size("Board length of the lattice"),
    phase: mm("u of the lattice"),
    sideGap: size("Row gap"),
  }),
  rows: List(
    group("Row", {
      row: whole("Row"),
      v: tuple("Strip", mm("Lower edge"), mm("Upper edge")),
      pieces: List(id("Piece")),
    }),
    {
      title: "Rows",
    },
  ),
  pieces: List(pieceSchema, { title: "Pieces" }),
  joints: List(
    group("Joint", { row: whole("Row"), u: mm("Middle"), pieces: tuple("Pieces", id("Left"), id("Right")) }),
    {
      title: "Joints",
    },
  ),
  clips: List(
    group("Clip", {
      id: id("Name"),
      kind: word("Kind", ["start", "seam", "last", "end"]),
      seam: whole("Seam"),
      at: xy("Anchor"),
      play: tuple("Play along the row", mm("Back"), mm("On")),
      holds: List(id("Piece"), { title: "Holds" }),
    }),
    { title: "Clips" },
  ),
  screws: List(
    group("Screw", {
      piece: id("Piece"),
      edge: Type.Unsafe<0 | 1>({ type: "integer", title: "Edge, 0 lower, 1 upper", minimum: 0, maximum: 1 }),
      at: xy("At"),
    }),
    { title: "Screws" },
  ),
  boards: List(boardSchema, { title: "Boards", maxItems: LIMITS.boards }),
  laying: List(
    group("Step", {
      step: whole("Step"),
      piece: id("Piece"),
      clipsBefore: List(id("Clip"), { title: "Clips set before" }),
      clipsAfter: List(id("Clip"), { title: "Clips set after" }),
    }),
    { title: "Laying order" },
  ),
  trims: List(
    group("Trim", {
      side: whole("Side"),
      parts: List(group("Part", { from: xy("From"), to: xy("To"), length: size("Length") }), { title: "Parts" }),
    }),
    { title: "Trims" },
  ),
  takeoff: List(
    group("Line", {
      item: id("Item"),
      name: text("Name"),
      unit: text("Unit"),
      need: number("Need", ""),
      spare: number("Spare", ""),
      pack: number("Pack", ""),
      buy: number("Buy", ""),
      owned: Type.Optional(number("From your yard", "")),
      price: orNull(number("Price", "minor units")),
    }),
    { title: "Take-off" },
  ),
  figures: figuresSchema,
  findings: List(
    group("Finding", {
      rule: id("Rule"),
      code: id("Code"),
      level: word("Level", ["stop", "warn", "note"]),
      at: orNull(xy("At")),
      found: Type.Union([Type.Number(), Type.String(), Type.Null()], { title: "Found" }),
      limit: Type.Union([Type.Number(), Type.String(), Type.Null()], { title: "Limit" }),
      says: text("Says"),
      do: text("Do"),
      releasedBy: orNull(word("Released by", ["reading", "person", "document"])),
    }),
    { title: "Findings" },
  ),
});

/** The schema as the validator interprets it. */
export const planRule: Rule = JSON.parse(JSON.stringify(planSchema)) as Rule;
