import type { NamedText, Outcome } from "../../desk/outcome.ts";
import type { CommandName } from "./args.ts";

export interface Order {
  command: CommandName;
  texts: NamedText[];
}
export type FromWorker = { kind: "stage"; stage: string } | { kind: "done"; outcome: Outcome };
