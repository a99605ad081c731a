/** Reads the season before anybody looks, so that there is a picture of it at once. */
import { effect } from "@preact/signals";
import { running, summaries } from "../log/log";
import { written } from "../log/saying/writing";

/** So long after the last note, with no trip running, ms. */
const rest = 60_000;

export function keepSeason(): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    clearTimeout(timer);
    const anew = written.value > 0;
    if (!running.value && summaries.value?.length) timer = setTimeout(() => prepare(anew), rest);
  });
}

/** What fails here is tried again when somebody looks. */
const prepare = (anew: boolean): Promise<void> =>
  import("./read").then((all) => all.prepare(anew)).catch(() => undefined);
