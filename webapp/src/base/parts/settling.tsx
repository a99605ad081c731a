/**
 * Around notices, which come and go by themselves: a tap right after one has come, gone or taken another's place was
 * meant for what stood there before, and does nothing.
 */
import type { ComponentChildren } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import { isEarly } from "../shell/guard";

export function Settling({ children }: { children: ComponentChildren }) {
  const area = useRef<HTMLDivElement>(null);
  const changed = useRef(Number.NEGATIVE_INFINITY);
  useLayoutEffect(() => {
    // Words that change in a notice leave its buttons what they are; another notice is another child.
    const observer = new MutationObserver(() => {
      changed.current = performance.now();
    });
    if (area.current) observer.observe(area.current, { childList: true });
    return () => observer.disconnect();
  }, []);
  const guard = (event: MouseEvent) => {
    if (!isEarly(event, changed.current)) return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <div class="notices" ref={area} onClickCapture={guard}>
      {children}
    </div>
  );
}
