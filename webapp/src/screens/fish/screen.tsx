/** The Fish place: the button for a fish that comes up, what is in hand, the bag, and what lies in the slush. */
import { useEffect } from "preact/hooks";
import { Notices } from "../../base/parts/around";
import { Fish as FishIcon, On, Warning } from "../../base/parts/icons";
import { useSeconds } from "../../base/parts/seconds";
import { once } from "../../base/shell/guard";
import { go, href } from "../../base/shell/route";
import { fromDesk, text } from "../../base/text/text";
import { type Fish, inHand, onIce } from "../../state/fish/fishes";
import { fishUp } from "../../state/fish/noting";
import { running } from "../../state/log/log";
import { useTrip } from "../../state/log/refer";
import { inForce, speciesOf, watersNow } from "../../state/rules/rules";
import { Bag, BagStop } from "./parts/bag";
import { fishName } from "./parts/names";
import { sinceWords } from "./parts/times";
import { cautionWords } from "./rules/caution";

const t = text.fish;

export function FishScreen() {
  useTrip(running.value?.trip);
  useEffect(() => {
    document.title = `${text.places.fish} · ${text.app.name}`;
  }, []);
  return (
    <main class="fish">
      <h1 class="visually-hidden">{text.places.fish}</h1>
      <div class="fish-list">
        <BagStop />
        <Notices />
        <Hands />
        <Bag />
        <RulesNow />
        <OnIce />
        <a class="button" href={href("fish", "keeping")}>
          {t.keeping.title} <On />
        </a>
      </div>
      <section class="fish-deck" aria-label={t.deck}>
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
        <button type="button" class="mark-now fish-up" onClick={once(up)}>
          <FishIcon />
          <span>
            {t.up}
            <small>{t.upWhat}</small>
          </span>
        </button>
      </section>
    </main>
  );
}

/** It is taken for what the rules of these waters name first: mostly that is what is fished for. */
const up = () => go("fish", "land", fishUp(speciesOf(inForce(), watersNow())[0] ?? ""));

/** Fish that somebody is busy with. */
function Hands() {
  useSeconds();
  const hands = inHand();
  if (hands.length === 0) return null;
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
