/** What the helm does while a fish is landed: as slow as the other lines let it, or which to take in first. */
import { useAnswer } from "../../../base/desk/ask";
import { text } from "../../../base/text/text";
import { type Folded, words } from "../../../state/entry/fold";
import { inHand } from "../../../state/fish/fishes";
import { crewsHookups, linesIn } from "../../../state/fish/hookup";
import { ofTrip } from "../../../state/fish/people";
import { gear, pick } from "../../../state/gear/gear";
import { placeName, rodWords } from "../../../state/gear/names";
import { refer } from "../../../state/log/refer";
import { doubtNow } from "../../../state/spread/doubt";
import { groundNow, rodFor, seaFor } from "../../../state/spread/request";
import { areBegun, type Rod, spread } from "../../../state/spread/spread";
import { properties } from "../../../state/spread/water";
import { freeWords, helmWords } from "./helm-words";

const t = text.fish.land.helm;

interface Named {
  name: string;
  rod: Rod;
}

/**
 * The rods that stay out: all but those on which the fish in hand and the last before it came up, and those that the crew
 * noted a further fish on, where the notes say which; and the names of these.
 */
function others(): { free: Named[]; hooked: string[] } {
  const hand = inHand().map(({ note }) => note ?? "");
  const rodsOf = (some: Folded[]) => some.map((one) => rodWords(words(one, "rod") ?? ""));
  const landed = rodsOf([
    ...ofTrip().filter((one) => hand.includes(refer(one))),
    ...linesIn(ofTrip(), Date.now()),
  ]);
  const struck = rodsOf(crewsHookups(ofTrip(), hand, Date.now()));
  const out = spread.value.rods
    .map((rod, i) => ({
      name: text.notes.oneRod(i + 1, placeName(pick(gear.value.places, rod.place))),
      rod,
    }))
    .filter(({ name }) => !landed.includes(name));
  return {
    free: out.filter(({ name }) => !struck.includes(name)),
    hooked: out.flatMap(({ name }) => (struck.includes(name) ? name : [])),
  };
}

/** The step for the helm, in words. */
export function useHelm(): string {
  const { free, hooked } = others();
  const { answer } = useAnswer("slowest", {
    sea: seaFor(spread.value, properties.value),
    doubt: doubtNow.value,
    ...groundNow(spread.value),
    rods: free.map(({ rod }) => rodFor(gear.value, rod)),
  });
  if (spread.value.allIn) return t.free;
  if (areBegun(spread.value, gear.value)) return `${t.unknown} ${t.unset}`;
  if (free.length === 0) return freeWords(hooked);
  return answer
    ? helmWords(
        answer,
        free.map(({ name }) => name),
        spread.value.speed,
        hooked,
      )
    : t.unknown;
}
