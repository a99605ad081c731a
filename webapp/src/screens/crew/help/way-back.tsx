/** Where to steer: bearing and distance to where the person likely is, large, with a picture; and how old all of it is. */
import type { Answer, Query, Way } from "../../../base/desk/types/overboard.gen";
import { Warning } from "../../../base/parts/icons";
import { fleeting, receiver } from "../../../base/position/position";
import { text } from "../../../base/text/text";
import { about, age, numeral } from "../../../base/units/show";
import { course } from "../../../base/units/when";
import type { Folded } from "../../../state/entry/fold";
import { markOf } from "../../../state/overboard/way-back";

const t = text.help.overboard;

const mile = 1852;

/** “120 ft”, “0.42 nm”, “4,631 nm”: never finer than a receiver tells, nor than matters so far away. */
const distance = (si: number): string =>
  si < mile / 4 ? about("craft", si, 5) : about("sea miles", si, si < 100 * mile ? 0.01 : 1);

/** Where it lies seen from the boat: “40° to port”. */
function aside(bearing: number, heading: number): string {
  const off = Math.round((((bearing - heading) * 180) / Math.PI + 540 + 360) % 360) - 180;
  if (Math.abs(off) <= 5) return t.ahead;
  if (Math.abs(off) >= 175) return t.astern;
  const angle = `${numeral(Math.abs(off))}°`;
  return off < 0 ? t.port(angle) : t.starboard(angle);
}

interface Props {
  asked: Query;
  answer: Answer | undefined;
}

export function WayBack({ asked, answer }: Props) {
  if (!answer) return <p role="status">{t.asking}</p>;
  const { likely, marked, within, drifted, from } = answer;
  const heading = asked.here.moving?.speed ? asked.here.moving.course : undefined;
  const old = (asked.here.age ?? 0) * 1000;
  const far = distance(likely.way.distance);
  const away = `${course(likely.way.bearing)} ${t.true}, ${far}`;
  return (
    <section class="way-back" aria-label={t.steer}>
      <Picture {...{ likely: likely.way, marked: marked.way, within, heading, words: away }} />
      <div class="way-back-words">
        <p class="huge">
          {course(likely.way.bearing)} <small>{t.true}</small>
        </p>
        {/* “4,631 nm” is smaller, so that it stays in one line. */}
        <p class={far.length > 7 ? "readout" : "huge"}>{far}</p>
        {heading !== undefined && <p class="readout">{aside(likely.way.bearing, heading)}</p>}
        <p>{t.within(distance(within))}</p>
      </div>
      <p class={old > fleeting ? "notice alarm" : ""} role={old > fleeting ? "alert" : undefined}>
        {old > fleeting && <Warning />} {old > fleeting ? t.fixOld(age(old)) : t.fixGood(age(old))}
      </p>
      {drifted > 0 && from !== "neither" && (
        <p>
          {t.drifted(distance(drifted), from)}{" "}
          {t.marked(course(marked.way.bearing), distance(marked.way.distance))}
        </p>
      )}
    </section>
  );
}

/** Why there is no way to tell, and what to do. */
export const NoWay = ({ record }: { record: Folded }) => (
  <p class="notice alarm" role="alert">
    <Warning /> {receiver.value === "refused" ? t.refused : receiver.value === "asking" ? t.waiting : t.noFix}{" "}
    {!markOf(record) && receiver.value !== "refused" && t.noFix}
  </p>
);

interface PictureProps {
  likely: Way;
  marked: Way;
  within: number;
  heading: number | undefined;
  words: string;
}

/** To scale: the boat in the middle, bow up where its course is known, else north up. */
function Picture({ likely, marked, within, heading, words }: PictureProps) {
  const scale = 88 / Math.max(likely.distance + within, marked.distance, 10);
  const at = ({ bearing, distance: far }: Way) => {
    const turned = bearing - (heading ?? 0);
    return { x: far * scale * Math.sin(turned), y: -far * scale * Math.cos(turned) };
  };
  const [person, mark] = [at(likely), at(marked)];
  const up = heading === undefined ? t.northUp : t.bowUp;
  return (
    <figure class="way-figure">
      <svg
        class="way-picture"
        viewBox="-100 -100 200 200"
        role="img"
        aria-label={`${t.picture(words)} (${up})`}
      >
        <circle class="way-ring" r="96" />
        <path class="way-line" d={`M0 0L${person.x} ${person.y}`} />
        <circle class="way-doubt" cx={person.x} cy={person.y} r={Math.max(within * scale, 5)} />
        <path class="way-mark" d={`M${mark.x - 6} ${mark.y - 6}l12 12m0 -12l-12 12`} />
        <circle class="way-person" cx={person.x} cy={person.y} r="5" />
        <path class="way-boat" d="M0 -13L8 10H-8Z" />
      </svg>
      {/* Beside the picture: in it, the circle may lie anywhere. */}
      <figcaption aria-hidden="true">{up}</figcaption>
    </figure>
  );
}
