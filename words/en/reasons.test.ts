import { expect, it } from "vitest";
import { chooseBond } from "../../core/stages/bond/bond.ts";
import { setOut } from "../../core/stages/setout/setout.ts";
import { randomJob } from "../../fixtures/random.ts";
import { NO_SURFACE, siteOf } from "../../fixtures/site.ts";
import { en } from "./index.ts";
import { reasons } from "./reasons.ts";

it("every reason given has a sentence with its figures", () => {
  const seen = new Set<string>();
  for (let seed = 0; seed < 60; seed++) {
    const site = siteOf(randomJob(seed) as Record<string, unknown>);
    if (site === null) continue;
    const setout = setOut(site.job, site.survey, NO_SURFACE);
    for (const { code, data } of [...setout.reasons, ...chooseBond(site.job, setout).reasons]) {
      seen.add(code);
      const said = reasons[code]!(data, en.write);
      expect(said).toMatch(/^[A-Z].*\.$/);
      expect(said).not.toMatch(/NaN|undefined/);
    }
  }
  expect(seen.size).toBeGreaterThan(6);
});
