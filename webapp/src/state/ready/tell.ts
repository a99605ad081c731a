/** Tells the boat's server what this phone lacks for sea, for the skipper to see. */
import { effect, untracked } from "@preact/signals";
import { tellReady } from "../enrol/server";
import { status } from "../exchange/exchange";
import { you } from "../log/log";
import { checks, lookAtPosition, lookAtStorage, lookAtTables } from "./checks";
import { keepLookingAtRules } from "./rules";

/** While the app starts, much is not known yet for so many ms. */
const rest = 4000;

export function keepTellingReady(): void {
  lookAtStorage();
  lookAtPosition();
  lookAtTables();
  keepLookingAtRules();
  let told: string | undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    const lacks = checks.value.filter((check) => check.standing !== "good").map(({ key }) => key);
    const words = `${you.value?.device} ${lacks.join(" ")}`;
    // Each exchange that came to its end says that the server is in reach.
    status.value.last;
    untracked(lookAtTables);
    clearTimeout(timer);
    if (!you.value || words === told) return;
    timer = setTimeout(
      () =>
        tellReady(lacks).then(
          () => {
            told = words;
          },
          // Told again after the next exchange, or the next change.
          () => undefined,
        ),
      rest,
    );
  });
}
