import { Component, type ComponentChildren } from "preact";

/** Keeps a fault of one panel from taking the drawing and the road with it; says what to do instead. */
export class Guard extends Component<{ says: string; children: ComponentChildren }, { fault: boolean }> {
  override state = { fault: false };
  static override getDerivedStateFromError(): { fault: boolean } {
    return { fault: true };
  }
  override componentDidCatch(fault: unknown): void {
    // For whoever looks into it; the fitter reads the sentence.
    console.error(fault);
  }
  override render() {
    return this.state.fault ? <p role="alert">{this.props.says}</p> : this.props.children;
  }
}
