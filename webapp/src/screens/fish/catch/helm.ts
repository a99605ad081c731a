/** What the helm does while a fish is landed: as slow as the other lines let it, or which to take in first. */
import { useAnswer } from "../../../base/desk/ask";
import { text } from "../../../base/text/text";
import { words } from "../../../state/entry/fold";
import { inHand } from "../../../state/fish/fishes";
import { openHookups } from "../../../state/fish/hookup";
import { ofTrip } from "../../../state/fish/people";
import { gear, pick } from "../../../state/gear/gear";
import { placeName, rodWords } from "../../../state/gear/names";
import { refer } from "../../../state/log/refer";
import { doubtNow } from "../../../state/spread/doubt";
import { groundNow, rodFor, seaFor } from "../../../state/spread/request";
import { areBegun, type Rod, spread } from "../../../state/spread/spread";
import { properties } from "../../../state/spread/water";
import { helmWords } from "./helm-words";

const t = text.fish.land.helm;

interface Named {
  name: string;
  rod: Rod;
}

/** The rods that stay out: all but those that a fish is on, or came up on and is in hand, where the notes say which. */
function others(): Named[] {
  const hand = inHand().map(({ note }) => note);
  const hooked = openHookups(ofTrip(), [], Date.now());
  const struck = ofTrip().flatMap((one) =>
    hooked.includes(one) || hand.includes(refer(one)) ? rodWords(words(one, "rod") ?? "") : [],
  );
  return spread.value.rods
    .map((rod, i) => ({
      name: text.notes.oneRod(i + 1, placeName(pick(gear.value.places, rod.place))),
      rod,
    }))
    .filter(({ name }) => !struck.includes(name));
}

/** The step for the helm, in words. */
export function useHelm(): string {
  const rods = others();
  const { answer } = useAnswer("slowest", {
    sea: seaFor(spread.value, properties.value),
    doubt: doubtNow.value,
    ...groundNow(spread.value),
    rods: rods.map(({ rod }) => rodFor(gear.value, rod)),
  });
  if (rods.length === 0 || spread.value.allIn) return t.free;
  if (areBegun(spread.value, gear.value)) return `${t.unknown} ${t.unset}`;
  return answer
    ? helmWords(
        answer,
        rods.map(({ name }) => name),
        spread.value.speed,
      )
    : t.unknown;
}
