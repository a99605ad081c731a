/** Whose a fish is: as told; where nobody is named, the only one's who fishes, since it can be nobody else's. */

import { type Folded, number, words } from "../entry/fold";
import { eachOnce } from "../log/names";

/** The only one who fishes on a trip, by its records: one is named, and it was told that one fishes; else empty. */
export function onlyOne(records: Folded[]): string {
  const stand = records.filter(({ struck }) => !struck);
  const heads = stand
    .filter(({ kind }) => kind === "trip")
    .map((trip) => number(trip, "fishing") || number(trip, "aboard"));
  const names = eachOnce(
    stand.filter(({ kind }) => kind === "person").map((one) => words(one, "name") ?? ""),
  );
  const [name = ""] = names;
  return names.length === 1 && heads.length > 0 && heads.every((count) => count === 1) ? name : "";
}

/** Of a hookup or a bag; only: who alone fishes on its trip, or empty. */
export const whose = (record: Folded, only: string): string => words(record, "person") || only;
