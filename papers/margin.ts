import type { Finding } from "../core/base/finding.ts";
import type { PlanRecord } from "../core/plan/record.ts";
import { allFindings } from "../core/plan/write.ts";
import { sayer } from "../words/say.ts";
import type { Numbered } from "./drawing/findings.ts";
import type { Tongue } from "./drawing/look.ts";
import { LINE_PITCH, line, mark, paragraph, THIN, text, textIn } from "./ink.ts";
import { rankedFindings } from "./ranked.ts";
import type { Item } from "./sheet.ts";
import { ELLIPSIS } from "./text.ts";

/** Most findings written out on a drawing. */
const MOST_FINDINGS = 12;

/** What is written beside a drawing, from `top` downward; `heightMm` is what it took. */
export interface Block {
  items: Item[];
  heightMm: number;
}

/** The findings a drawing is concerned with, merged by kind, most pressing first; those beyond twelve are counted. */
export function numberedFindings(
  record: PlanRecord,
  concerns: (finding: Finding) => boolean,
): { shown: Numbered[]; more: number } {
  const mine = rankedFindings(record).filter(({ finding }) => concerns(finding));
  const all = allFindings(record);
  const shown = mine.slice(0, MOST_FINDINGS).map((kind): Numbered => {
    const alike = all.filter(({ code, level }) => code === kind.finding.code && level === kind.finding.level);
    return { ...kind, places: alike.flatMap(({ at }) => (at ? [at] : [])) };
  });
  return { shown, more: mine.slice(MOST_FINDINGS).reduce((sum, kind) => sum + kind.count, 0) };
}

export function headed(words: string, x: number, top: number, width: number): Block {
  return {
    items: [
      text([x, top - 3], words, { heightMm: 3, bold: true }),
      line("text", [x, top - 4.4], [x + width, top - 4.4], THIN),
    ],
    heightMm: 6,
  };
}

/** The list the numbers on the drawing lead to. Stops where `bottom` is reached and says how many are left. */
export function findingsBlock(
  list: { shown: readonly Numbered[]; more: number },
  tongue: Tongue,
  x: number,
  top: number,
  width: number,
  bottom: number,
): Block {
  const { words, labels } = tongue;
  const head = headed(labels.findings.head, x, top, width);
  const items = [...head.items];
  let y = top - head.heightMm;
  if (list.shown.length === 0) items.push(text([x, y - 2.5], labels.findings.none));
  if (list.shown.length === 0) return { items, heightMm: head.heightMm + 4 };
  const say = sayer(words).finding;
  let shortened = false;
  let left = list.more;
  for (const [i, { number, finding, count }] of list.shown.entries()) {
    const said = say(finding);
    const part = paragraph([x + 11, y], `${said.says} ${said.do}`, width - 11, {}, 4);
    const short = isShortened(part.items);
    const alike = count > 1 ? labels.findings.alike(words.write.mm(count - 1)) : null;
    if (alike !== null) {
      part.heightMm += LINE_PITCH * 2.5;
      part.items.push(textIn([x + 11, y - part.heightMm], alike, width - 11));
    }
    const last = i === list.shown.length - 1 && list.more === 0;
    if (y - part.heightMm < bottom + (last ? 0 : 5)) {
      left += list.shown.slice(i).reduce((sum, kind) => sum + kind.count, 0);
      break;
    }
    items.push(
      mark("findings", [x + 1.7, y - 1.4], finding.level, 3, 0, "ink"),
      text([x + 9.6, y - 2.5], String(number), { bold: true, align: "right" }),
      ...part.items,
    );
    y -= part.heightMm + 2.4;
    shortened ||= short;
  }
  // beside the head, where it takes no finding's place
  if (shortened) items.push(text([x + width, top - 3], labels.findings.shortened, { align: "right" }));
  if (left > 0) {
    items.push(text([x + 11, y - 2.5], labels.findings.more(words.write.mm(left))));
    y -= 5;
  }
  return { items, heightMm: top - y };
}

function isShortened(items: readonly Item[]): boolean {
  const last = items[items.length - 1];
  return last?.kind === "text" && last.text.endsWith(ELLIPSIS);
}

/** A sample of a sign about 10 mm wide, its middle at x, y; and what it means. */
export interface Sign {
  sample: (x: number, y: number) => Item[];
  words: string;
}
const SIGN_MM = 5.2;
const SAMPLE_MM = 15;

/** The signs in as many columns as are given. */
export function legendBlock(
  columns: readonly (readonly Sign[])[],
  tongue: Tongue,
  x: number,
  top: number,
  width: number,
): Block {
  const head = headed(tongue.labels.legend, x, top, width);
  const items = [...head.items];
  const wide = width / columns.length;
  let lowest = 0;
  for (const [c, signs] of columns.entries()) {
    let used = head.heightMm;
    for (const sign of signs) {
      const left = x + c * wide;
      const part = paragraph([left + SAMPLE_MM, top - used - 0.6], sign.words, wide - SAMPLE_MM - 1, {}, 3);
      items.push(...sign.sample(left + 6.5, top - used - 1.9), ...part.items);
      used += Math.max(SIGN_MM, part.heightMm + 2.2);
    }
    lowest = Math.max(lowest, used);
  }
  return { items, heightMm: lowest };
}

/** What the drawing rests on: measured, assumed, checked, with room to sign for the building. */
export function statesBlock(
  record: PlanRecord,
  tongue: Tongue,
  proof: string | null,
  x: number,
  top: number,
  width: number,
): Block {
  const { labels } = tongue;
  const head = headed(labels.states.head, x, top, width);
  const items = [...head.items];
  let y = top - head.heightMm;
  const row = (name: string, says: string): void => {
    const part = paragraph([x + 19, y], says, width - 19, {}, 4);
    items.push(text([x, y - 2.5], name, { bold: true }), ...part.items);
    y -= part.heightMm + 2;
  };
  row(labels.states.measured, measured(record, tongue).join("; "));
  row(labels.states.assumed, assumed(record, tongue).join("; "));
  row(labels.states.checked, proof === null ? labels.checked.notProved : labels.checked.proved(proof));
  const signed = text([x + 19, y - 3.5], labels.checked.signed);
  items.push(signed, line("text", [x + 60, y - 4.2], [x + width, y - 4.2], THIN));
  return { items, heightMm: top - y + 5.5 };
}

function measured(record: PlanRecord, { words, labels }: Tongue): string[] {
  const { survey } = record;
  const { write } = words;
  const { adjustment } = survey;
  const out = [
    adjustment
      ? labels.measured.outlineTaped(
          write.mm(adjustment.ties.length),
          adjustment.s0 === null ? null : write.number(adjustment.s0, 2),
        )
      : labels.measured.outlineGiven(write.mm(survey.outline.length)),
  ];
  const spacing = record.surface.surface?.spacingMm;
  if (survey.levels.length === 0) out.push(labels.measured.noLevels);
  else
    out.push(labels.measured.levels(write.mm(survey.levels.length), spacing === undefined ? null : write.mm(spacing)));
  if (survey.straightedges.length > 0) out.push(labels.measured.straightedges(write.mm(survey.straightedges.length)));
  return out;
}

function assumed(record: PlanRecord, { words, labels }: Tongue): string[] {
  const out: string[] = [];
  if (record.defaultsUsed.length > 0) out.push(labels.assumed.defaults(words.write.mm(record.defaultsUsed.length)));
  const { base } = record.job;
  const named = new Set(base.confirmed.map((c) => c.of));
  const unknown = (["membrane", "heating", "tendons"] as const)
    .filter((of) => base[of] === "unknown" && !named.has(of))
    .map((of) => labels.assumed[of]);
  if (base.firm === "unknown" && !named.has("firmness")) unknown.push(labels.assumed.firm);
  if (unknown.length > 0) out.push(labels.assumed.unknown(unknown));
  return out.length > 0 ? out : [labels.assumed.none];
}
