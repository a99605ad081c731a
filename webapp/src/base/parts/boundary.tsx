/**
 * What fails within it takes nothing else with it: it says what cannot be shown, and the rest lives on. The report is
 * put aside, to be saved to a file.
 */
import { Component, type ComponentChildren } from "preact";
import { failures, putAside } from "../store/aside";
import { text } from "../text/text";
import { Act, Notice } from "./notice";

interface Props {
  /** What is within, in words. */
  what: string;
  children: ComponentChildren;
}

export class Boundary extends Component<Props, { failed: boolean }> {
  override state = { failed: false };

  static override getDerivedStateFromError() {
    return { failed: true };
  }

  override componentDidCatch(fault: unknown): void {
    const { name = "", message = String(fault), stack = "" } = fault instanceof Error ? fault : {};
    const why = `${this.props.what}: ${name} ${message}`.trim();
    // Without storage there is nowhere to keep it; the notice stands all the same.
    putAside({ name: failures, why, raw: { at: location.hash, stack } }).catch(() => undefined);
  }

  override render({ what, children }: Props) {
    if (!this.state.failed) return children;
    const t = text.notices.failed;
    return (
      <Notice alarm actions={<Act onTap={() => this.setState({ failed: false })}>{t.again}</Act>}>
        {t.what(what)}
      </Notice>
    );
  }
}
