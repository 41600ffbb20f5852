import { useEffect } from "preact/hooks";
import type { PlanRecord } from "../../../core/plan/record.ts";
import type { StepId } from "../../../words/app.ts";
import { Sign } from "../look/sign.tsx";
import type { App } from "../road/step.ts";
import type { Hit } from "./hit.ts";

/** What was picked on the drawing, in words: for a finding the sentence and what to do. Also said aloud. */
export function Said({ app }: { app: App }) {
  const hit = app.tapped?.hit ?? null;
  const finding = hit?.kind === "finding" && app.answer?.ok ? app.answer.findings[hit.index] : undefined;
  const words = finding ? null : hit && app.record && nameOf(app, app.record, hit);
  // What the step's own panel tells of is not told twice on the drawing.
  const beside = hit && TOLD_BESIDE[app.step]?.includes(hit.kind);
  const gone = hit !== null && !finding && !words;
  useEffect(() => {
    if (gone) app.untap();
  }, [gone]);
  return (
    <div class={finding || (words && !beside) ? "said" : "unseen"}>
      <div role="status">
        {finding && (
          <>
            <p class="first">
              <Sign symbol={finding.level} />
              {finding.number} {app.words.shell.level[finding.level]}
            </p>
            <p>
              {finding.says} {finding.do}
            </p>
          </>
        )}
        {words && <p class="first">{words}</p>}
      </div>
      {(finding || (words && !beside)) && (
        <button type="button" aria-label={app.words.shell.close} onClick={app.untap}>
          <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true">
            <path d="M2 2L14 14M14 2L2 14" stroke="currentColor" stroke-width="2" />
          </svg>
        </button>
      )}
    </div>
  );
}

const TOLD_BESIDE: Partial<Record<StepId, readonly Hit["kind"][]>> = { setout: ["piece"], fix: ["clip", "screw"] };

function nameOf({ words }: App, record: PlanRecord, { kind, index }: Hit): string | null {
  const { board, write } = words;
  if (kind === "piece") {
    const piece = record.bond.pieces[index];
    if (!piece) return null;
    const from = record.cutting.boards[record.cutting.boardOf[index]!]!;
    return board.piece(
      String(piece.row + 1),
      piece.id,
      write.mm(piece.lengthUm / 1000),
      write.mm(piece.widthUm / 1000),
      from.id,
    );
  }
  if (kind === "clip") {
    const clip = record.fixing.clips[index];
    return clip
      ? board.clip(clip.kind, clip.id, write.mm(-clip.playUm[0] / 1000), write.mm(clip.playUm[1] / 1000))
      : null;
  }
  if (kind === "screw") return record.fixing.screws[index] ? board.screw : null;
  if (kind === "level") {
    const level = record.survey.levels[index];
    return level ? board.level(write.mm1(level.zMm)) : null;
  }
  if (kind === "cutout") {
    const cutout = record.survey.cutouts[index];
    return cutout ? board.cutout(cutout.name, cutout.height) : null;
  }
  const side = record.survey.sides[index];
  return side ? board.side(side.kind, String(side.source + 1), write.mm1(side.gapMm)) : null;
}
