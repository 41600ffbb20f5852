import type { Job, Side, SideKind } from "../job/job.ts";
import type { Json } from "./edit.ts";

/** A job as it is written: what the fitter gave, before defaults. Everything but the few required keys may be left out. */
export interface JobDraft extends Omit<Partial<Loose<Job>>, "site" | "title"> {
  format: "rowline/job@1";
  title: string;
  site: Omit<Loose<Job["site"]>, "outline" | "sides" | "slab"> & {
    outline?: DraftVertex[] | null;
    sides?: DraftSide[];
    slab?: DraftVertex[] | null;
  };
  /** What the measuring itself needs to remember; no plan looks at it. */
  "x-measure"?: MeasureDraft;
  /** What the handover remembers: each point of care, who saw to it and when. */
  "x-handover"?: { checks?: Record<string, { by: string; on: string }> };
}
export interface MeasureDraft {
  /** Sides walked and not yet closed to an outline. */
  walk?: { mm: number; turn: "left" | "right" | "straight" }[];
  /** Height of the instrument's line above the datum of the levels, mm. */
  instrument?: number;
  /** Spacing of the proposed grid of levels, mm. */
  spacing?: number;
}
export type DraftVertex = [x: number, y: number] | [x: number, y: number, bulge: number];
export type DraftSide = SideKind | (Partial<Side> & { kind: SideKind });

type Loose<T> = T extends readonly number[]
  ? T
  : T extends readonly (infer E)[]
    ? Loose<E>[]
    : T extends object
      ? { -readonly [K in keyof T]?: Loose<T[K]> }
      : T;

/** A job's text as the app hands it to the planner and writes it to a file: same job, same bytes. */
export function jobText(job: JobDraft): string {
  return `${JSON.stringify(job, null, 1)}\n`;
}

export function asJson(job: JobDraft): Json {
  return job as unknown as Json;
}
export function asDraft(value: Json): JobDraft {
  return value as unknown as JobDraft;
}
