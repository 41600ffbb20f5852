import type { StepPanel } from "./step.ts";

/** A step whose own panel is still to come: its place, and the plan's figures that belong to it. */
const Soon: StepPanel = ({ app }) => <p>{app.words.shell.comesLater}</p>;
export default Soon;
