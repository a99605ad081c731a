/**
 * The last of many quick changes, passed on when they pause or something else is tapped, and at the latest when the
 * page is left: a phone that is pocketed after the next answer has this one on its disk.
 */
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
    tapped: false,
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
    state.current.tapped = true;
    if (pause === 0) return pass();
    state.current.timer = setTimeout(pass, pause);
    setShown({ value: next });
  };
  useEffect(() => {
    const left = () => document.visibilityState === "hidden" && pass();
    const tap = () => {
      state.current.tapped = false;
    };
    // Not within the tap: what is drawn anew meanwhile would take the choice back that it makes.
    const elsewhere = () => {
      if (state.current.tapped || !state.current.waiting) return;
      clearTimeout(state.current.timer);
      state.current.timer = setTimeout(pass);
    };
    document.addEventListener("visibilitychange", left);
    // Loaded anew, a page in sight is left without being hidden.
    addEventListener("pagehide", pass);
    document.addEventListener("click", tap, true);
    document.addEventListener("click", elsewhere);
    return () => {
      document.removeEventListener("visibilitychange", left);
      removeEventListener("pagehide", pass);
      document.removeEventListener("click", tap, true);
      document.removeEventListener("click", elsewhere);
      pass();
    };
  }, []);
  return { value: shown ? shown.value : value, change, pass };
}
