/** What comes right after the first paint, and goes on besides: nothing that is shown first waits for it. */
import { signal } from "@preact/signals";

type After = typeof import("./after");

export const after = signal<After | undefined>(undefined);

/** It did not come, on the very first visit, with the network gone in the midst of it; who wants it next asks for it again. */
export const stayedAway = signal(false);

let coming: Promise<After> | undefined;
let arrived: (all: After) => void;

/** It, once it is here, however often it did not come. */
export const here = new Promise<After>((done) => {
  arrived = done;
});

/** Does something with it once it is here. */
export const whenHere = (use: (all: After) => void): Promise<void> => come().then(use, () => undefined);

export function come(): Promise<After> {
  coming ??= import("./after").then((all) => {
    after.value = all;
    arrived(all);
    stayedAway.value = false;
    return all;
  });
  coming.catch(() => {
    stayedAway.value = true;
    coming = undefined;
  });
  return coming;
}
