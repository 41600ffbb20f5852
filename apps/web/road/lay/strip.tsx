import type { PlanRecord } from "../../../../core/plan/record.ts";
import type { RowCard } from "../../../../papers/rowCards.ts";

const WIDE = 1000;
const TOP = 26;
const TALL = 78;

/** The stretch as it lies before one: lengths to scale, height not; one stroke at a cut end, two at a rip; clip marks at their edge. */
export function Strip({ card, record, laid }: { card: RowCard; record: PlanRecord; laid: ReadonlySet<string> }) {
  const span = Math.max(1, (card.u1Um - card.u0Um) / 1000);
  const x = (mm: number) => 12 + (mm / span) * (WIDE - 24);
  const bottom = TOP + TALL;
  const marks = record.site.drillingReleased
    ? [...card.near.map(low), ...card.far.map(high), ...card.ends.map(end)]
    : [];
  return (
    <svg class="strip" viewBox={`0 0 ${WIDE} ${bottom + 26}`} aria-hidden="true">
      {card.pieces.map((cut, i) => {
        const [from, to] = card.spansMm[i]!.map(x) as [number, number];
        return (
          <g key={cut.id}>
            <rect
              x={from}
              y={TOP}
              width={Math.max(1, to - from)}
              height={TALL}
              class={laid.has(cut.id) ? "lies" : ""}
            />
            {laid.has(cut.id) && <path d={hatch(from, to)} class="hatch" />}
            {(cut.cutEnds === "left" || cut.cutEnds === "both") && <path d={`M${from} ${bottom - 20}h22`} />}
            {(cut.cutEnds === "right" || cut.cutEnds === "both") && <path d={`M${to} ${bottom - 20}h-22`} />}
            {cut.ripped && (
              <path
                d={`M${from + 40} ${cut.ripped === "far" ? TOP : bottom}v${cut.ripped === "far" ? 22 : -22}m12 0v${cut.ripped === "far" ? -22 : 22}`}
              />
            )}
            {to - from > 40 && (
              <text x={(from + to) / 2} y={TOP + TALL / 2 + 15} text-anchor="middle">
                {i + 1}
              </text>
            )}
          </g>
        );
      })}
      {marks.map(({ at, edge, key }) => (
        <path key={key} class="mark" d={markAt(x(at), edge, bottom)} />
      ))}
    </svg>
  );
}

type Edge = "low" | "high" | "end";
const low = (clip: { clip: number; alongMm: number }) => at(clip, "low");
const high = (clip: { clip: number; alongMm: number }) => at(clip, "high");
const end = (clip: { clip: number; alongMm: number }) => at(clip, "end");
function at({ clip, alongMm }: { clip: number; alongMm: number }, edge: Edge) {
  return { at: alongMm, edge, key: clip };
}

function markAt(x: number, edge: Edge, bottom: number): string {
  if (edge === "low") return `M${x} ${bottom}l11 22h-22z`;
  if (edge === "high") return `M${x} ${TOP}l11 -22h-22z`;
  return `M${Math.min(WIDE - 12, Math.max(12, x)) - 8} ${bottom - 44}h16v16h-16z`;
}

function hatch(from: number, to: number): string {
  const lines: string[] = [];
  for (let y = TOP + 13; y < TOP + TALL; y += 13) lines.push(`M${from} ${y}H${to}`);
  return lines.join("");
}
