import type { PlanRecord } from "../core/plan/record.ts";
import { allFindings } from "../core/plan/write.ts";
import { sayer } from "../words/say.ts";
import type { Words } from "../words/words.ts";
import { type Block, listSheets } from "./page.ts";
import type { Paper } from "./sheet.ts";

/** Most findings printed; the plan file holds them all. */
const PRINTED = 600;

/** Every finding with its number, place, remedy and what would release it: what the summary has no room for. */
export function findingsPaper(record: PlanRecord, words: Words): Paper {
  const w = words.papers.findings;
  const { levels, finding: sentence, releasedBy } = words.papers.summary;
  const say = sayer(words).finding;
  const all = allFindings(record);
  const rows = all.slice(0, PRINTED).map((finding, i): [string, string] => {
    const said = say(finding);
    const place = finding.at && `${words.write.mm(finding.at[0])}, ${words.write.mm(finding.at[1])}`;
    const release = finding.releasedBy ? ` ${releasedBy[finding.releasedBy]}` : "";
    return [`${levels[finding.level]} ${i + 1}`, sentence(said.says, `${said.do}${release}`, 1, place)];
  });
  const blocks: Block[] = [{ kind: "text", text: all.length === 0 ? w.none : w.how }];
  if (rows.length > 0) blocks.push({ kind: "pairs", headMm: 30, rows, maxLines: 8 });
  if (all.length > rows.length)
    blocks.push({ kind: "text", text: w.more(words.write.number(all.length - rows.length, 0)) });
  return {
    name: "findings",
    title: w.title,
    sheets: listSheets(record, words, "findings", w.title, blocks),
    dxf: false,
  };
}
