/** The Crew place: what everybody aboard has to know, and what is ticked off before, out there and after. */
import { On, Plus } from "../../base/parts/icons";
import { Place } from "../../base/parts/place";
import { once } from "../../base/shell/guard";
import { go, href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { boat } from "../../state/crew/boat";
import { checklists, listName, makeList, shopping } from "../../state/crew/lists";
import { mayChange } from "../../state/crew/role";
import { doneOf } from "../../state/crew/ticks";
import { guests } from "../../state/crew/told";
import { useRunningTrip } from "../../state/crew/use-trip";
import { Paper, PaperLists, PrintButton } from "./print";

const t = text.crew;

export function CrewScreen() {
  useRunningTrip();
  const heard = guests.value.filter(({ since }) => since !== undefined).length;
  const toBuy = shopping().items.length;
  return (
    <>
      <Place title={text.places.crew} kind="crew" deckName={t.deck} deck={<Ready heard={heard} />}>
        <h2>{t.listsTitle}</h2>
        <ul class="links">
          {checklists.value.map((one) => (
            <To
              key={one.list}
              to={["crew", "list", one.list]}
              name={listName(one)}
              more={t.done(doneOf(one), one.items.length)}
            />
          ))}
        </ul>
        <div class="button-row">
          {mayChange() && (
            <button type="button" class="button" onClick={once(() => go("crew", "change", makeList().list))}>
              <Plus /> {t.list.make}
            </button>
          )}
          <PrintButton name={t.printAll} />
        </div>
        <h2>{t.rest}</h2>
        <ul class="links">
          <To to={["crew", "floatplan"]} name={t.floatplan.title} more={t.ashore} />
          <To to={["crew", "boat"]} name={t.boatTitle} more={boat.value.name || t.boatMissing} />
          <To
            to={["crew", "gear"]}
            name={t.gear.title}
            more={toBuy > 0 ? `${t.gear.shopping}: ${toBuy}` : t.gear.what}
          />
        </ul>
      </Place>
      <Paper title={t.listsTitle}>
        <PaperLists of={checklists.value} />
      </Paper>
    </>
  );
}

/** What is wanted in a hurry. */
const Ready = ({ heard }: { heard: number }) => (
  <div class="crew-ready">
    <a class="button" href={href("crew", "briefing", "1")}>
      <span>
        {t.briefing}
        <small class="crew-what">
          {guests.value.length > 0 ? t.told(heard, guests.value.length) : t.briefingWhat}
        </small>
      </span>
    </a>
    <a class="button" href={href("crew", "radio")}>
      <span>
        {t.mayday}
        <small class="crew-what">{t.maydayWhat}</small>
      </span>
    </a>
    <a class="button" href={href("help")}>
      <span>
        {text.help.title}
        <small class="crew-what">{text.help.what}</small>
      </span>
    </a>
  </div>
);

const To = ({ to, name, more }: { to: string[]; name: string; more: string }) => (
  <li>
    <a class="button" href={href(...to)}>
      <span>
        {name}
        <small class="soft">{more}</small>
      </span>
      <On />
    </a>
  </li>
);
