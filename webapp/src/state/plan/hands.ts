/** How many people are aboard, for the plan: as noted in the trip, or as somebody has set it there for this trip. */
import { computed } from "@preact/signals";
import { limits } from "../../base/desk/types/plan.gen";
import { Kept } from "../../base/store/kept";
import { orNone, record, within, words } from "../../base/store/shape";
import { ofKind, running, shownTrip } from "../log/log";
import { spread } from "../spread/spread";

interface Set {
  people: number;
  /** The trip it was set for; empty: none ran. */
  trip: string;
}

export const keptHands = new Kept<Set | null>(
  "hands",
  orNone(record<Set>({ people: within(limits.Query.people), trip: words })),
  null,
);

const trip = () => running.value?.trip ?? "";

export const setHands = (people: number): void => keptHands.set({ people: Math.round(people), trip: trip() });

/** Rods for each person who does not steer: common practice, no source. */
export const tended = 2;

export interface Hands {
  people: number;
  from: "own" | "trip" | "rods";
}

export const hands = computed<Hands>(() => {
  const own = keptHands.signal.value;
  if (own && own.trip === trip()) return { people: own.people, from: "own" };
  const aboard = shownTrip.value === trip() ? ofKind("person").filter((one) => !one.struck).length : 0;
  if (aboard > 0) return { people: Math.min(aboard, limits.Query.people.max), from: "trip" };
  return { people: 1 + Math.ceil(spread.value.rods.length / tended), from: "rods" };
});
