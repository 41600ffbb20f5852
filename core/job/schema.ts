import { Type } from "typebox";
import { LIMITS } from "../base/limits.ts";
import type { Rule } from "../read/rule.ts";
import { CLOSED, choice, count, name, orNull, point, quantity, yes } from "./fields.ts";
import { baseSchema } from "./schemaBase.ts";
import { siteSchema } from "./schemaSite.ts";
import { surveySchema } from "./schemaSurvey.ts";

const { Array: List, Object: Group, Optional } = Type;
export const JOB_FORMAT = "rowline/job@1";

const mm = (title: string, description: string, preset: number, min: number, max: number) =>
  Optional(quantity(title, "mm", description, { min, max, default: preset }));
const money = (title: string, description: string, preset: number) =>
  Optional(quantity(title, "minor units", description, { min: 0, max: 1e9, default: preset }));
const share = (title: string, preset: number) =>
  Optional(quantity(title, "share", "Added to what is needed, 0.03 is 3 %.", { min: 0, max: 5, default: preset }));

const boardSchema = Group(
  {
    name: Optional(name("Name", "As ordered.", { default: "board" })),
    lengths: List(
      Group(
        {
          length: quantity("Length", "mm", "Of the whole board.", { min: 100, max: 20_000 }),
          price: money("Price", "Each. 0: not known, the order list says so.", 0),
          pack: Optional(count("Pack", "Boards in a pack.", { min: 1, max: 10_000, default: 1 })),
          stock: Optional(
            orNull(
              count("Can be had", "Boards there are, your own and the merchant's; null: as many as wanted.", {
                min: 0,
                max: 1e6,
              }),
              null,
            ),
          ),
          owned: Optional(
            orNull(
              count("In your yard", "Boards you have already: used first, not bought, counted in stock; null: none.", {
                min: 0,
                max: 1e6,
              }),
              null,
            ),
          ),
        },
        CLOSED,
      ),
      { title: "Lengths", description: "Lengths the board is sold in.", minItems: 1, maxItems: LIMITS.boardLengths },
    ),
    width: quantity("Width", "mm", "Covering width of one board.", { min: 20, max: 1000 }),
    rise: quantity("Rise", "mm", "Height of the finished surface above the base.", { min: 5, max: 300 }),
    grooves: Optional(choice("Grooves", "Long edges with a groove for clips.", ["both", "lower", "upper", "none"])),
    channels: Optional(
      choice("Channels", "Drainage channels of the underside, seen along the board.", [
        "along",
        "across",
        "both",
        "none",
      ]),
    ),
    expansion: Optional(quantity("Expansion", "1/K", "Along the board.", { min: 0, max: 1e-3, default: 4e-5 })),
    mass: Optional(quantity("Mass", "kg/m", "Per metre of board.", { above: 0, max: 100, default: 4.6 })),
    reversible: Optional(yes("Reversible", "May be turned by half a turn in its plane.", true)),
    tolerance: mm("Tolerance", "Of the width, from board to board.", 0.5, 0, 10),
  },
  { ...CLOSED, title: "Board" },
);

const gapsSchema = Group(
  {
    side: mm("Side gap", "Between neighbouring rows.", 5, 0, 50),
    sideRange: Optional(
      Type.Unsafe<[number, number]>({
        type: "array",
        title: "Side gap range",
        description: "Least and greatest side gap the clip allows; left out: the side gap alone. Unit: mm.",
        prefixItems: [
          { type: "number", minimum: 0, maximum: 50, "x-unit": "mm" },
          { type: "number", minimum: 0, maximum: 50, "x-unit": "mm" },
        ],
        items: false,
        minItems: 2,
        maxItems: 2,
      }),
    ),
    end: mm("End gap", "Between boards of one row.", 5, 0, 50),
    edge: mm("Edge gap", "To walls and cut-outs.", 10, 0, 200),
  },
  { ...CLOSED, title: "Gaps" },
);

const clipsSchema = Group(
  {
    length: mm("Length", "Of the clip's body along the row.", 120, 5, 1000),
    clearMax: mm("Greatest distance", "Between neighbouring clips on one edge.", 500, 10, 5000),
    measure: Optional(choice("Measured", "Clear between the bodies, or centre to centre.", ["clear", "centre"])),
    endMax: mm("From the end", "First and last clip of an edge.", 320, 1, 5000),
    startEndMax: mm("From the end, first and last row", "Start and last clips.", 100, 1, 5000),
    perPiece: Optional(count("Per piece and edge", "At least.", { min: 1, max: 20, default: 2 })),
    tolerance: mm("Tolerance", "How far a hole may wander; kept in hand.", 15, 0, 200),
    slabEdge: mm("Slab edge", "Least distance of a hole from a free edge of the base.", 60, 0, 1000),
    jointEdge: mm("Base joint", "Least distance of a hole from a joint of the base.", 60, 0, 1000),
    wallReach: mm("Wall reach", "How near to a wall the drill can work.", 45, 0, 1000),
    engage: mm("Engagement", "How far a board moves in to click.", 8, 0, 100),
    fixing: Optional(
      Group(
        {
          diameter: mm("Diameter", "Of the hole in the base.", 6, 1, 50),
          embed: mm("Embedment", "Depth in sound base.", 35, 1, 500),
          holes: Optional(
            List(point("Hole", "From the anchor, along and across the row. Unit: mm."), {
              title: "Holes of a clip",
              minItems: 1,
              maxItems: 20,
              default: [[0, 0]],
            }),
          ),
        },
        { ...CLOSED, title: "Fixing" },
      ),
    ),
  },
  { ...CLOSED, title: "Clips" },
);

const bondSchema = Group(
  {
    angle: Optional(
      orNull(
        quantity("Angle", "degrees", "Direction of the rows, counter-clockwise from +x; null: chosen.", {
          min: -360,
          max: 360,
          default: 0,
        }),
      ),
    ),
    kind: Optional(choice("Bond", "How joints of neighbouring rows lie.", ["half", "third", "free", "stack"])),
    shift: Optional(
      orNull(
        quantity("Shift", "mm", "First joint of row 0 from its least u; null: chosen.", { min: 0, max: 20_000 }),
        null,
      ),
    ),
    firstRow: Optional(
      orNull(quantity("First row", "mm", "Width of row 0 when ripped; null: chosen.", { above: 0, max: 1000 }), null),
    ),
    stagger: mm("Stagger", "Least distance of joints of neighbouring rows.", 300, 0, 10_000),
    minPiece: mm("Shortest piece", "With a joint.", 300, 0, 10_000),
    minRip: mm("Narrowest strip", "Of any piece.", 50, 0, 1000),
    startAt: Optional(
      orNull(point("Start at", "On the lower edge of some row's strip, site frame; null: chosen. Unit: mm."), null),
    ),
    locked: Optional(
      List(
        Group(
          {
            row: count("Row", "Of the plan, from 0.", { min: 0, max: 1e6 }),
            joints: List(
              quantity("Joint", "mm", "Middle of the end gap, u from the row frame's origin.", {
                min: -LIMITS.extentMm,
                max: LIMITS.extentMm,
              }),
              { title: "Joints", maxItems: LIMITS.ringVertices },
            ),
          },
          CLOSED,
        ),
        {
          title: "Locked rows",
          description: "Rows that keep their joints, because pieces of them lie or are cut.",
          maxItems: LIMITS.ringVertices,
          default: [],
        },
      ),
    ),
  },
  { ...CLOSED, title: "Bond" },
);

const cutSchema = Group(
  {
    kerf: mm("Kerf", "Width of the saw cut.", 3, 0, 20),
    minOffcut: mm("Shortest offcut kept", "Shorter ones are waste.", 300, 0, 20_000),
    cutTo: Optional(quantity("Cut to", "mm", "Lengths are rounded down to this.", { min: 0.1, max: 100, default: 1 })),
    holeEdge: mm("Hole edge", "Least distance of a hole's perimeter from the board's edge.", 50, 0, 500),
  },
  { ...CLOSED, title: "Cutting" },
);

const trimSchema = Group(
  {
    length: mm("Length", "Of a stock length.", 2400, 100, 20_000),
    price: money("Price", "Each.", 1450),
    leg: mm("Leg", "Height of the visible leg.", 40, 1, 500),
    thickness: mm("Thickness", "Of the leg at the open side.", 2, 0, 50),
    vent: Optional(yes("Vent", "Lets water and air through.", true)),
    screwSpacing: mm("Screw spacing", "At most.", 300, 10, 5000),
  },
  { ...CLOSED, title: "Trim", description: "At open sides; null: none." },
);

const sparesSchema = Group(
  {
    boards: share("Boards", 0.03),
    boardsAtLeast: Optional(count("Boards at least", "Spare boards in any case.", { min: 0, max: 10_000, default: 2 })),
    boardsSlanting: share("Boards, slanting or curved", 0.06),
    clips: share("Clips", 0.05),
    fixings: share("Fixings", 0.1),
  },
  { ...CLOSED, title: "Spares" },
);

const free = (title: string, description: string) =>
  Optional(Type.Unsafe<Record<string, unknown>>({ type: "object", title, description, default: {} }));

export const jobSchema = Group(
  {
    format: Type.Literal(JOB_FORMAT, { title: "Format", description: "Which file this is, and its version." }),
    title: name("Title", "What the job is called on every paper.", { minLength: 1 }),
    currency: Optional(
      Type.String({
        title: "Currency",
        description: "ISO 4217, three capitals.",
        pattern: "^[A-Z]{3}$",
        default: "EUR",
        examples: ["EUR"],
      }),
    ),
    site: siteSchema,
    survey: Optional(surveySchema),
    base: Optional(baseSchema),
    board: boardSchema,
    gaps: Optional(gapsSchema),
    clips: Optional(clipsSchema),
    bond: Optional(bondSchema),
    cut: Optional(cutSchema),
    trim: Optional(orNull(trimSchema)),
    spares: Optional(sparesSchema),
    prices: Optional(
      Type.Unsafe<Record<string, number>>({
        type: "object",
        title: "Prices",
        description: "Unit prices by item of the order list, minor units.",
        patternProperties: { "^(?!x-)": { type: "number", minimum: 0, maximum: 1e9, "x-unit": "minor units" } },
        default: {},
      }),
    ),
    packs: Optional(
      Type.Unsafe<Record<string, number>>({
        type: "object",
        title: "Packs",
        description: "Units a pack by item of the order list, where it is sold in packs. Boards carry their own.",
        patternProperties: { "^(?!x-)": { type: "integer", minimum: 1, maximum: 1e6 } },
        default: {},
      }),
    ),
    work: free("Work", "Paces, people and dates."),
    client: free("Client", "Who it is for."),
  },
  {
    ...CLOSED,
    title: "Rowline job",
    description:
      "What the fitter knows. Lengths mm, angles degrees counter-clockwise from +x, slopes %, masses kg, money in minor units of the currency. Keys that begin with x- belong to other programs.",
  },
);

/** The schema as the validator reads it. */
export const jobRule = jobSchema as unknown as Rule;

/** The published JSON Schema (2020-12): the definition jobs are validated with, nothing else. */
export function exportJobSchema(): Record<string, unknown> {
  const plain = JSON.parse(JSON.stringify(jobSchema)) as Record<string, unknown>;
  return { $schema: "https://json-schema.org/draft/2020-12/schema", $id: "urn:rowline:job:1", ...plain };
}
