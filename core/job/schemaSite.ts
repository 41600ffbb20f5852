import { Type } from "typebox";
import { LIMITS } from "../base/limits.ts";
import { CLOSED, choice, name, orNull, point, quantity, ring } from "./fields.ts";

const { Array: List, Object: Group, Optional, Union } = Type;
const mark = name("Mark", "Name of a marked corner, as chalked on site.", { minLength: 1 });

const SIDE_KINDS = ["wall", "door", "kerb", "open", "outlet", "pool"] as const;
const sideKind = choice("Kind of side", "What stands along this side.", SIDE_KINDS, null);
const gap = orNull(
  quantity(
    "Gap",
    "mm",
    "Distance the boards keep here; null or left out: gaps.edge, on an open side the trim's thickness.",
    {
      min: 0,
      max: 500,
    },
  ),
  null,
);

const side = Union(
  [
    sideKind,
    Group(
      {
        kind: sideKind,
        gap: Optional(gap),
        sill: Optional(
          orNull(
            quantity("Sill", "mm", "Height of the door's sill above the base at the door.", { min: -1000, max: 3000 }),
            null,
          ),
        ),
        opens: Optional(orNull(choice("Opens", "Which way the door leaf opens.", ["in", "out"], null), null)),
        leafClear: Optional(
          orNull(
            quantity("Leaf clearance", "mm", "Clear height under the open leaf above the base.", { min: 0, max: 3000 }),
            null,
          ),
        ),
      },
      CLOSED,
    ),
  ],
  { title: "Side", description: "Side i runs from vertex i to vertex i + 1: a kind, or a kind with its figures." },
);

function area(title: string, preset: string) {
  return Group(
    {
      name: Optional(name("Name", "What it is called on the papers.", { default: preset })),
      ring: ring("Ring", "Its edge, closed by itself, either way round."),
    },
    { ...CLOSED, title },
  );
}

export const siteSchema = Group(
  {
    outline: Optional(
      orNull(ring("Outline", "The surface to be covered, as measured. Give this, or marks with survey.ties."), null),
    ),
    marks: Optional(
      orNull(
        List(mark, {
          title: "Marks",
          description: "Names of the corners in order round the outline, where it was taken by tape.",
          minItems: 1,
          maxItems: LIMITS.ringVertices,
        }),
        null,
      ),
    ),
    offsets: Optional(
      List(
        Group(
          {
            side: Type.Integer({
              title: "Side",
              description: "Index of the straight side.",
              minimum: 0,
              maximum: LIMITS.ringVertices,
            }),
            along: quantity("Along", "mm", "Distance from the side's first vertex.", { min: 0, max: LIMITS.extentMm }),
            offset: quantity("Offset", "mm", "Where the real edge lies: left of the straight side is positive.", {
              min: -10_000,
              max: 10_000,
            }),
          },
          CLOSED,
        ),
        {
          title: "Wall offsets",
          description: "How a wall bellies: measured from a straight line along one side.",
          maxItems: LIMITS.readings,
          default: [],
        },
      ),
    ),
    sides: Optional(
      List(side, {
        title: "Sides",
        description: "One a side, or left out: all walls.",
        maxItems: LIMITS.ringVertices,
        default: [],
      }),
    ),
    cutouts: Optional(
      List(
        Group(
          {
            name: Optional(name("Name", "What it is called on the papers.", { default: "cut-out" })),
            ring: ring("Ring", "Its edge, closed by itself, either way round."),
            gap: Optional(gap),
            height: Optional(
              choice(
                "Height",
                "tall: no board can be threaded over it; flush: a board may enclose it; removable: a lid stays over it.",
                ["tall", "flush", "removable"],
              ),
            ),
          },
          CLOSED,
        ),
        { title: "Cut-outs", description: "Posts, gullies, downpipes.", maxItems: LIMITS.areas, default: [] },
      ),
    ),
    noDrill: Optional(
      List(area("No-drill area", "no-drill area"), { title: "No-drill areas", maxItems: LIMITS.areas, default: [] }),
    ),
    keepClear: Optional(
      List(area("Keep-clear area", "keep-clear area"), {
        title: "Keep-clear areas",
        description: "No joint lies here.",
        maxItems: LIMITS.areas,
        default: [],
      }),
    ),
    loose: Optional(
      List(
        Group(
          {
            name: Optional(name("Name", "What it is called on the papers.", { default: "loose area" })),
            ring: ring("Ring", "Its edge, closed by itself, either way round."),
            kind: Optional(choice("Kind", "What lies loose.", ["tiles", "paving", "screed", "other"])),
          },
          CLOSED,
        ),
        { title: "Loose areas", description: "Coverings to be lifted.", maxItems: LIMITS.areas, default: [] },
      ),
    ),
    baseJoints: Optional(
      List(List(point("Point", "On the joint. Unit: mm."), { minItems: 2, maxItems: LIMITS.ringVertices }), {
        title: "Joints of the base",
        description: "Lines no hole may come near (clips.jointEdge).",
        maxItems: LIMITS.areas,
        default: [],
      }),
    ),
    slab: Optional(
      orNull(ring("Slab", "Edge of the base. Left out: no edge distance is checked, and open sides ask for it."), null),
    ),
  },
  {
    ...CLOSED,
    title: "Site",
    description: "The place as measured. Right-handed frame, x and y in plan, lengths in mm.",
  },
);
