/** The words for the radio on a page for one emergency: with somebody overboard in them where that is told. */
import type { RefObject } from "preact";
import { useAnswer } from "../../../base/desk/ask";
import { Warning } from "../../../base/parts/icons";
import { useSeconds } from "../../../base/parts/seconds";
import { text } from "../../../base/text/text";
import { about, age } from "../../../base/units/show";
import { place } from "../../../base/units/when";
import { aboardNow } from "../../../state/crew/aboard";
import { type Folded, number } from "../../../state/entry/fold";
import { doubtOf } from "../../../state/overboard/doubt";
import { sinceWent } from "../../../state/overboard/overboard";
import { wayBack } from "../../../state/overboard/way-back";
import { HowManyAboard, PlaceAge, placeHere, Words } from "../radio-words";

const t = text.help.overboard;

/** The place as it was noted; undefined where there was no fix. */
export function markWords(record: Folded): string | undefined {
  const [lat, lon] = [number(record, "lat"), number(record, "lon")];
  return lat === undefined || lon === undefined ? undefined : place(lat, lon);
}

export function Doubted({ record }: { record: Folded }) {
  const doubt = doubtOf(record);
  return doubt === undefined ? null : (
    <p class="notice alarm">
      <Warning /> {doubt === "shut out" ? t.shutOut : t.far(about("sea miles", doubt, 1))} {markWords(record)}
    </p>
  );
}

const degrees = (radians: number): number => (radians * 180) / Math.PI;

interface Props {
  lost: Folded | undefined;
  heading: RefObject<HTMLHeadingElement | null>;
}

export function Radio({ lost, heading }: Props) {
  useSeconds();
  const asked = lost && wayBack(lost);
  const { answer } = useAnswer("overboard", asked);
  // Where they likely are by now, not where they went.
  const at = asked && answer && place(degrees(answer.likely.lat), degrees(answer.likely.lon));
  return (
    <section class="form">
      <h2 ref={heading}>{text.help.radio}</h2>
      <p>{text.crew.radio.channel}</p>
      {lost && <Doubted record={lost} />}
      {/* Who calls is where this phone is, whatever place somebody noted. */}
      <Words
        here={placeHere()}
        lost={
          lost && {
            ago: age(sinceWent(lost)),
            // Others are sent to no place that is doubted.
            where: doubtOf(lost) === undefined ? (at ?? markWords(lost)) : undefined,
          }
        }
      />
      <PlaceAge />
      <p>{text.crew.radio.listen}</p>
      {(lost || !aboardNow().sure) && <HowManyAboard />}
      {lost && <p class="soft">{t.estimate}</p>}
    </section>
  );
}
