import type { Finding } from "../../core/base/finding.ts";
import { testFinding } from "./words.ts";

/** A dozen findings of all levels, some at one place. */
export function sampleFindings(): Finding[] {
  return [
    testFinding(
      "warn",
      [6300, 4150],
      "Row 27 ends in a 38 mm strip that no clip can hold.",
      "Spread the gaps to 5.4 mm or turn the rows.",
    ),
    testFinding(
      "stop",
      null,
      "Heating is not known: nothing may be drilled.",
      "Let the heating engineer confirm by name where it lies.",
    ),
    testFinding(
      "note",
      [2400, 3400],
      "The door's leaf clears 15 mm, the boards rise 25.",
      "Plane the leaf or lower the boards here.",
    ),
    testFinding(
      "warn",
      [4100, 1500],
      "A bridge of 35 mm beside the post would break.",
      "The joint is put at the post.",
    ),
    testFinding(
      "warn",
      [4120, 1520],
      "Joint moved 60 mm off the bond beside the post.",
      "Nothing to do: the stagger holds.",
    ),
    testFinding(
      "note",
      [1200, 1400],
      "No clips within the heating loop.",
      "Hold these three boards by their neighbours.",
    ),
  ];
}
