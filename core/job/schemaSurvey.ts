import { Type } from "typebox";
import { LIMITS } from "../base/limits.ts";
import { CLOSED, level, point, quantity } from "./fields.ts";

const { Array: List, Object: Group, Optional, Unsafe } = Type;

export const surveySchema = Group(
  {
    levels: Optional(List(level(), { title: "Levels", maxItems: LIMITS.levels, default: [] })),
    straightedges: Optional(
      List(
        Group(
          {
            from: point("From", "One end of the straightedge. Unit: mm."),
            to: point("To", "Its other end. Unit: mm."),
            gap: quantity("Gap", "mm", "Largest gap under it, between its two supports.", { min: 0, max: 1000 }),
          },
          CLOSED,
        ),
        { title: "Straightedge readings", maxItems: LIMITS.readings, default: [] },
      ),
    ),
    ties: Optional(
      List(
        Unsafe<[string, string, number]>({
          type: "array",
          title: "Tie",
          description: "Taped distance between two marks: [from, to, mm].",
          prefixItems: [
            { type: "string", minLength: 1, maxLength: LIMITS.nameLength },
            { type: "string", minLength: 1, maxLength: LIMITS.nameLength },
            { type: "number", exclusiveMinimum: 0, maximum: LIMITS.extentMm, "x-unit": "mm" },
          ],
          items: false,
          minItems: 3,
          maxItems: 3,
        }),
        { title: "Ties", description: "Sides and diagonals, any two marks.", maxItems: LIMITS.readings, default: [] },
      ),
    ),
    sigma: Optional(
      Group(
        {
          level: Optional(
            quantity("Level", "mm", "Standard deviation of a level reading.", { above: 0, max: 1000, default: 1 }),
          ),
          levelPer10m: Optional(
            quantity("Level per 10 m", "mm", "What it grows by for each 10 m from the instrument.", {
              min: 0,
              max: 1000,
              default: 0.5,
            }),
          ),
          tape: Optional(
            quantity("Tape", "mm", "Standard deviation of a tape reading.", { above: 0, max: 1000, default: 2 }),
          ),
        },
        { ...CLOSED, title: "How well it was measured" },
      ),
    ),
  },
  { ...CLOSED, title: "Survey", description: "Readings: levels, straightedges, tapes." },
);
