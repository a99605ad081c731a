/** Who is aboard, from the notes of the running trip; without names there is only “me”. */
import { words } from "../log/fold";
import { records, running, shownTrip } from "../log/log";
import { refer } from "../log/refer";
import { type InBag, keptToday } from "./count";
import { type Fish, fishes } from "./fishes";

/** The records of the trip that runs; none while another one is on screen. */
export const ofTrip = () => (running.value && shownTrip.value === running.value.trip ? records.value : []);

/** Names, each once; one empty name where nobody is named. */
export function aboard(): string[] {
  const names = ofTrip()
    .filter((record) => record.kind === "person" && !record.struck)
    .map((record) => words(record, "name") ?? "")
    .filter(Boolean);
  return names.length > 0 ? [...new Set(names)] : [""];
}

/** What was kept today, but for the fish that is being judged. */
export const bagNow = (but?: Fish): InBag[] =>
  keptToday(
    ofTrip().filter((record) => refer(record) !== but?.note),
    fishes.value.filter((fish) => fish.id !== but?.id),
    Date.now(),
  );
