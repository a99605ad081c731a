/** The Fish place: what is in hand, the bag, and what lies in the slush. */
import { useMemo } from "preact/hooks";
import { On, Warning } from "../../base/parts/icons";
import { Place } from "../../base/parts/place";
import { useSeconds } from "../../base/parts/seconds";
import { href } from "../../base/shell/route";
import { fromDesk, text } from "../../base/text/text";
import { type Fish, inHand, onIce } from "../../state/fish/fishes";
import { running } from "../../state/log/log";
import { useTrip } from "../../state/log/refer";
import { inForce, watersNow } from "../../state/rules/rules";
import { Bag, HowManyAsked, stops, useRooms } from "./parts/bag";
import { fishName } from "./parts/names";
import { sinceWords } from "./parts/times";
import { cautionWords } from "./rules/caution";

const t = text.fish;

export function FishScreen() {
  useTrip(running.value?.trip);
  const rooms = useRooms();
  const alarms = useMemo(() => stops(rooms), [rooms]);
  return (
    <Place
      title={text.places.fish}
      kind="fish"
      deckName={t.deck}
      alarms={alarms}
      asks={<HowManyAsked rooms={rooms} />}
      deck={
        <div class="quick">
          <a class="button" href={href("fish", "ice")}>
            {t.ice.short}
          </a>
          <a class="button" href={href("fish", "weight")}>
            {t.weight.short}
          </a>
          <a class="button" href={href("fish", "rules")}>
            {t.rules.short}
          </a>
        </div>
      }
    >
      <Hands />
      <Bag />
      <RulesNow />
      <OnIce />
      <a class="button" href={href("fish", "keeping")}>
        {t.keeping.title} <On />
      </a>
    </Place>
  );
}

/** Fish that somebody is busy with. */
function Hands() {
  useSeconds();
  const hands = inHand();
  if (hands.length === 0) return <p>{t.noneInHand}</p>;
  return (
    <section class="form">
      <h2>{t.inHand}</h2>
      <ul class="links">
        {hands.map((fish) => (
          <li key={fish.id}>
            <a class="button" href={href("fish", fish.step, fish.id)}>
              <span>
                {t.goOn(fishName(fish))}
                <small class="soft">
                  {fish.step !== "over" && t.steps[fish.step]} · {t.land.since(sinceWords(fish.up))}
                </small>
              </span>
              <On />
            </a>
          </li>
        ))}
      </ul>
    </section>
  );
}

function OnIce() {
  useSeconds();
  const fish = onIce();
  if (fish.length === 0) return null;
  return (
    <ul class="links">
      {fish.map((one) => (
        <li key={one.id}>
          <a class="button" href={href("fish", "slush", one.id)}>
            <span>
              {t.whose(fishName(one), one.person)}
              <small class="soft">{coldWords(one)}</small>
            </span>
            <On />
          </a>
        </li>
      ))}
    </ul>
  );
}

const coldWords = ({ iced, bled, up: at }: Fish): string =>
  iced
    ? t.slush.inFor(sinceWords(iced))
    : bled
      ? t.bleed.bleeding(sinceWords(bled))
      : t.land.since(sinceWords(at));

/** Which rules count here; without waters nothing can be judged. */
function RulesNow() {
  const set = inForce();
  const waters = watersNow();
  const r = t.rules;
  return (
    <a class="button" href={href("fish", "rules")}>
      <span>
        {!waters && <Warning />} {set && waters ? fromDesk(set.name) : r.choose}
        {set && waters && <small>{fromDesk(waters)}</small>}
        {set && <small class="soft">{cautionWords(set)}</small>}
      </span>
      <On />
    </a>
  );
}
