/** Has a component shown anew every second, for what grows old. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";

export function useSeconds(): void {
  const beat = useSignal(0);
  beat.value;
  useEffect(() => {
    const timer = setInterval(() => beat.value++, 1000);
    return () => clearInterval(timer);
  }, [beat]);
}
