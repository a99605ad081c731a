/** Has a component shown anew every second, for what grows old. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";

export function useSeconds(): void {
  const second = useSignal(0);
  second.value;
  useEffect(() => {
    const timer = setInterval(() => second.value++, 1000);
    return () => clearInterval(timer);
  }, [second]);
}
