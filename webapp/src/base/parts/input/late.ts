/** The last of many quick changes, passed on when they pause, and at the latest when the page is left. */
import { useEffect, useRef, useState } from "preact/hooks";

interface Late<T> {
  /** What is shown: the last change, or what it was. */
  value: T;
  change: (value: T) => void;
  /** Passes the last change on now. */
  pass: () => void;
}

export function useLate<T>(value: T, onValue: (value: T) => void, pause = 1000): Late<T> {
  const [shown, setShown] = useState<{ value: T } | undefined>(undefined);
  const state = useRef({
    waiting: shown,
    timer: 0 as unknown as ReturnType<typeof setTimeout>,
    onValue,
    value,
  });
  state.current.onValue = onValue;
  state.current.value = value;

  const pass = () => {
    const { waiting, timer } = state.current;
    clearTimeout(timer);
    state.current.waiting = undefined;
    if (waiting && waiting.value !== state.current.value) state.current.onValue(waiting.value);
    setShown(undefined);
  };
  const change = (next: T) => {
    clearTimeout(state.current.timer);
    state.current.waiting = { value: next };
    if (pause === 0) return pass();
    state.current.timer = setTimeout(pass, pause);
    setShown({ value: next });
  };
  useEffect(() => {
    const left = () => document.visibilityState === "hidden" && pass();
    document.addEventListener("visibilitychange", left);
    return () => {
      document.removeEventListener("visibilitychange", left);
      pass();
    };
  }, []);
  return { value: shown ? shown.value : value, change, pass };
}
