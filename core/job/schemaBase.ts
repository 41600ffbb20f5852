import { Type } from "typebox";
import { LIMITS } from "../base/limits.ts";
import { CLOSED, choice, name, orNull, quantity, unknowable, yes } from "./fields.ts";

const { Array: List, Object: Group, Optional } = Type;

const mm = (title: string, description: string, preset: number, min: number, max: number) =>
  Optional(quantity(title, "mm", description, { min, max, default: preset }));
const fall = (title: string, description: string, preset: number) =>
  Optional(quantity(title, "%", description, { min: 0, max: 50, default: preset }));

export const baseSchema = Group(
  {
    kind: Optional(
      choice("Kind of base", "What the clips are fixed to.", ["concrete", "tiles", "paving", "asphalt", "screed"]),
    ),
    firm: Optional(unknowable("Firm", "It carries, and nothing rocks or sounds hollow.", true)),
    membrane: Optional(unknowable("Membrane", "A waterproof layer lies within reach of the drill.", "unknown")),
    heating: Optional(unknowable("Heating", "Pipes or cables lie within reach of the drill.", "unknown")),
    tendons: Optional(unknowable("Tendons", "Stressed steel lies within reach of the drill.", "unknown")),
    suspended: Optional(yes("Suspended", "Balcony, roof or floor over a room: added mass counts.", false)),
    loadMax: Optional(
      orNull(quantity("Permitted added load", "kg/m2", "Null where nobody has said.", { min: 0, max: 100_000 }), null),
    ),
    confirmed: Optional(
      List(
        Group(
          {
            of: choice(
              "Of",
              "What is confirmed.",
              ["membrane", "heating", "tendons", "services", "load", "fixing", "firmness"],
              null,
            ),
            by: name("By", "Name of who answers for it.", { minLength: 1 }),
            on: Type.String({
              title: "On",
              description: "Day, year-month-day.",
              pattern: "^\\d{4}-\\d{2}-\\d{2}$",
              examples: ["2026-05-14"],
            }),
            says: Optional(name("Says", "What was confirmed, in words.", { default: "" })),
          },
          CLOSED,
        ),
        {
          title: "Confirmations",
          description: "Each releases a stop, with a name to it.",
          maxItems: LIMITS.areas,
          default: [],
        },
      ),
    ),
    limits: Optional(
      Group(
        {
          unevenness: mm("Unevenness", "Largest gap under the straightedge.", 5, 0.1, 100),
          straightedge: mm("Straightedge", "Its length.", 2000, 200, 10_000),
          deviation: mm("Deviation", "Farthest the base may lie from its plane.", 10, 0.1, 1000),
          fallMin: fall("Least fall", "Of the whole base.", 2),
          fallMax: fall("Greatest fall", "Of the whole base.", 4),
          fallLocalMin: fall("Least local fall", "Anywhere.", 1),
        },
        { ...CLOSED, title: "Limits of the base" },
      ),
    ),
    preparation: Optional(
      Group(
        {
          grindMax: mm("Deepest grinding", "By hand.", 3, 0, 100),
          grindCost: Optional(
            quantity("Cost of grinding", "minor units a litre", "Per litre taken off.", {
              min: 0,
              max: 1e9,
              default: 9000,
            }),
          ),
          materials: Optional(
            List(
              Group(
                {
                  name: Optional(name("Name", "As ordered.", { default: "shaped mortar" })),
                  kind: Optional(
                    choice("Kind", "shaped: can make a fall; pourable: finds its own level.", ["shaped", "pourable"]),
                  ),
                  min: mm("Least thickness", "Below it the edge is cut in.", 3, 0, 1000),
                  max: mm("Greatest thickness", "In one layer.", 50, 0.1, 1000),
                  cost: Optional(
                    quantity("Cost", "minor units a litre", "Per litre filled.", { min: 0, max: 1e9, default: 3500 }),
                  ),
                  density: Optional(quantity("Density", "kg a litre", "Set.", { above: 0, max: 25, default: 1.8 })),
                  bag: Optional(
                    orNull(
                      quantity("Bag", "l", "Litres a bag yields; null: sold loose.", { above: 0, max: 10_000 }),
                      null,
                    ),
                  ),
                },
                CLOSED,
              ),
              {
                title: "Materials",
                maxItems: 20,
                default: [
                  { name: "shaped mortar", kind: "shaped", min: 3, max: 50, cost: 3500, density: 1.8, bag: null },
                ],
              },
            ),
          ),
        },
        { ...CLOSED, title: "Preparation" },
      ),
    ),
  },
  { ...CLOSED, title: "Base", description: "The existing hard surface." },
);
