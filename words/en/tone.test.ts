import { expect, it } from "vitest";
import { en } from "./index.ts";
import { preparation } from "./preparation.ts";
import { reasons } from "./reasons.ts";
import { surface } from "./surface.ts";

const bare = { code: "", rule: "", level: "warn", at: null, found: null, limit: null, releasedBy: null } as const;

it("says a little too little fall as that, never as 2.0 % where 2.0 % is wanted", () => {
  const data = { fall: 1.9996, limit: 2, facet: 0, facets: 1 };
  const said = surface.fall(data, { ...bare, data } as never, en.write).says;
  expect(said).toContain("just under");
  const clear = { fall: 1.3, limit: 2, facet: 0, facets: 1 };
  expect(surface.fall(clear, { ...bare, data: clear } as never, en.write).says).toContain("1.3");
});

it("gives what is set with a tape or a saw in whole millimetres", () => {
  const said = [
    reasons.shiftChosen!({ shiftMm: 1436.7, moved: 0, smallestMm: 679 }, en.write),
    reasons.rowsShared!({ firstMm: 139.8, lastMm: 143.6 }, en.write),
    reasons.rowsFullFirst!({ lastMm: 130.1 }, en.write),
  ];
  for (const one of said) expect(one).not.toMatch(/\d\.\d/);
});

it("writes square metres one way", () => {
  const data = { areaMm2: 2e6, minMm: 3, material: "mortar", cutIn: true };
  expect(preparation.thinEdges(data as never, { ...bare, data } as never, en.write).says).toContain("m²");
});
