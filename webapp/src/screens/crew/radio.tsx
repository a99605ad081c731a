/** The words of a call for help, with this boat in them: in the briefing, beside the radio, and when it is meant. */
import { useEffect } from "preact/hooks";
import { Page } from "../../base/parts/page";
import { useSeconds } from "../../base/parts/seconds";
import { watchPosition } from "../../base/position/position";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { useRunningTrip } from "../../state/crew/use-trip";
import { Paper, PrintButton } from "./print";
import { BoatMissing, HowManyAboard, PlaceAge, placeHere, Words } from "./radio-words";

const t = text.crew.radio;

export function RadioPage() {
  useRunningTrip();
  useSeconds();
  useEffect(watchPosition, []);
  return (
    <Page title={t.title} back={href("crew")}>
      <p>{t.first}</p>
      <p>{t.channel}</p>
      <Words here={placeHere()} />
      <HowManyAboard />
      <BoatMissing />
      <PlaceAge />
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
