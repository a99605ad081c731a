/** The words of a distress call with what is known in them, and what they still need: the boat, and how many are aboard. */
import { On } from "../../base/parts/icons";
import { LimitedStepper } from "../../base/parts/input/limited";
import { since } from "../../base/position/moment";
import { lastFix, position } from "../../base/position/position";
import { href } from "../../base/shell/route";
import { say } from "../../base/text/en/crew";
import { text } from "../../base/text/text";
import { age } from "../../base/units/show";
import { place } from "../../base/units/when";
import { aboardNow, heads, mostAboard, setHeads } from "../../state/crew/aboard";
import { boat } from "../../state/crew/boat";
import { distressCall, type Known } from "../../state/crew/mayday";
import { groundOfTrip } from "../../state/crew/trip";

const t = text.crew.radio;

interface Props {
  /** Without a place it is to be read from the plotter at the time. */
  here?: string | undefined;
  /** How long somebody has been overboard, and where. */
  lost?: Known["lost"];
}

/** Where this phone is, as on a chart; undefined: no fix, or an old one. */
export function placeHere(): string | undefined {
  const { lat, lon } = position();
  return lat === undefined || lon === undefined ? undefined : place(lat, lon);
}

/** How old that is, or that it has to be read elsewhere. */
export const PlaceAge = () => (
  <p>{placeHere() && lastFix.value ? t.positionAge(age(since(lastFix.value.at))) : t.readPosition}</p>
);

const withPoint = (place: string | undefined) => place?.replaceAll(",", ".");

/** What is said: in the English that is listened for, with its decimal point. */
export function Words({ here, lost }: Props) {
  const known: Known = {
    boat: boat.value,
    // Names alone are too few, which would end a search too soon: then it is said by who counts at the time.
    people: aboardNow().sure || boat.value.people > 0 ? aboardNow().count : 0,
    place: here,
    ground: groundOfTrip() || boat.value.ground,
    ...(lost && { lost }),
  };
  const meaning = t.meaning && distressCall(t.meaning, known);
  const english: Known = {
    ...known,
    place: withPoint(here),
    ...(lost && { lost: { ...lost, where: withPoint(lost.where) } }),
  };
  return (
    <ol class="call" lang="en">
      {distressCall(say, english).map((sentence, i) => (
        <li key={sentence}>
          {sentence}
          {sentence === say.nature && <small class="soft">{t.natures}</small>}
          {meaning && (
            <small class="soft" lang={text.language}>
              {meaning[i]}
            </small>
          )}
        </li>
      ))}
    </ol>
  );
}

/** The words need the boat: where to tell it. */
export const BoatMissing = () =>
  boat.value.name ? null : (
    <div class="notice">
      <p>{t.missing}</p>
      <a class="button" href={href("crew", "boat")}>
        {t.tellBoat} <On />
      </a>
    </div>
  );

/** Names are not heads: a skipper seldom notes himself. */
export function HowManyAboard() {
  const { count, sure } = aboardNow();
  return (
    <div class={sure ? "form" : "notice several"}>
      {!sure && <p>{t.countSkipper}</p>}
      <LimitedStepper
        label={t.howMany}
        quantity="number"
        si={heads.value.aboard || count}
        limits={{ min: 0, max: mostAboard }}
        zero={t.notTold}
        onChange={(aboard) => setHeads({ aboard: Math.round(aboard) })}
      />
      {!sure && count > 0 && (
        <button type="button" class="button" onClick={() => setHeads({ aboard: count })}>
          {t.thatMany(String(count))}
        </button>
      )}
    </div>
  );
}
