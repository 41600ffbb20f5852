/** Words for drawings in tests: real figures, and a sentence a finding can carry itself, so that any text can be tried. */
import type { Finding, FindingLevel } from "../../core/base/finding.ts";
import { en } from "../../words/en/index.ts";
import type { Words } from "../../words/words.ts";

export function testWords(): Words {
  const say = (data: { says: string; do: string }) => data;
  const findings = new Proxy({}, { get: () => say }) as unknown as Words["findings"];
  return { ...en, findings };
}

export function testFinding(
  level: FindingLevel,
  at: readonly [number, number] | null,
  says: string,
  what: string,
): Finding {
  return {
    code: `test ${says}`,
    rule: "test",
    level,
    at,
    found: null,
    limit: null,
    releasedBy: null,
    data: { says, do: what },
  };
}
