/** The words of a call for help, with this boat in them: in the briefing, beside the radio, and when it is meant. */
import { useEffect } from "preact/hooks";
import { On } from "../../base/parts/icons";
import { Page } from "../../base/parts/page";
import { useSeconds } from "../../base/parts/seconds";
import { since } from "../../base/position/moment";
import { lastFix, position, watchPosition } from "../../base/position/position";
import { href } from "../../base/shell/route";
import { say } from "../../base/text/en/crew";
import { text } from "../../base/text/text";
import { age } from "../../base/units/show";
import { place } from "../../base/units/when";
import { boat } from "../../state/crew/boat";
import { distressCall, type Known } from "../../state/crew/mayday";
import { groundOfTrip, peopleAboard } from "../../state/crew/trip";
import { useRunningTrip } from "../../state/crew/use-trip";
import { Paper, PrintButton } from "./print";

const t = text.crew.radio;

export function RadioPage() {
  useRunningTrip();
  useSeconds();
  useEffect(watchPosition, []);
  const { lat, lon } = position();
  const here = lat === undefined || lon === undefined ? undefined : place(lat, lon);
  return (
    <Page title={t.title} back={href("crew")}>
      <p>{t.first}</p>
      <p>{t.channel}</p>
      <Words here={here} />
      <BoatMissing />
      <p>{here && lastFix.value ? t.positionAge(age(since(lastFix.value.at))) : t.readPosition}</p>
      <p class="large-words">{t.listen}</p>
      <p>{t.when}</p>
      <p class="soft">
        {t.checks} {text.crew.pages.radio.from}
      </p>
      <PrintButton name={text.crew.print} />
      <Paper title={t.title}>
        <p>{t.first}</p>
        <p>{t.channel}</p>
        <Words />
        <p>{t.readPosition}</p>
        <p>{t.listen}</p>
        <p>{t.when}</p>
      </Paper>
    </Page>
  );
}

/** What is said; without a position where that is to be read from the plotter at the time. */
export function Words({ here }: { here?: string | undefined }) {
  const people = peopleAboard().length || boat.value.people;
  const known: Known = {
    boat: boat.value,
    people,
    place: here,
    ground: groundOfTrip() || boat.value.ground,
  };
  const meaning = t.meaning && distressCall(t.meaning, known);
  return (
    <ol class="call" lang="en">
      {distressCall(say, known).map((sentence, i) => (
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
