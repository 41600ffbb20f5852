import { markParts } from "../../../papers/marks.ts";
import type { MarkSymbol } from "../../../papers/sheet.ts";

/** A symbol of the drawings beside words: the same outline on screen, paper and in the list. */
export function Sign({ symbol, size = 16 }: { symbol: MarkSymbol; size?: number }) {
  return (
    <svg class="sign" width={size} height={size} viewBox="-0.56 -0.56 1.12 1.12" aria-hidden="true">
      {markParts(symbol).map((part, i) => (
        <path
          key={i}
          d={`M${part.points.map(([x, y]) => `${x} ${-y}`).join("L")}${part.closed ? "Z" : ""}`}
          class={`sign-${part.fill}`}
        />
      ))}
    </svg>
  );
}
