/** The bag of today: who has how many, how many more there may be, and the stop that nobody overlooks. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Died, desk, Refused } from "../../../base/desk/desk";
import type { Catch, Judgement } from "../../../base/desk/types/fish.gen";
import { Warning } from "../../../base/parts/icons";
import { text } from "../../../base/text/text";
import { countOf, type InBag } from "../../../state/fish/count";
import { anglers, bagNow, counted, fishing, isSeveral } from "../../../state/fish/people";
import { catchOf, fitting, inForce, speciesOf, watersNow } from "../../../state/rules/rules";
import { HowMany, HowManyNow } from "./how-many";
import { speciesName } from "./names";

const t = text.fish.bag;

interface Room {
  species: string;
  person: string;
  kept: number;
  keptByBoat: number;
  /** How many more; −1: no limit. */
  more: number;
  moreByBoat: number;
  /** Not to be kept by anybody now, bag or not. */
  closed: boolean;
  /** It depends on how many fish. */
  ask: boolean;
}

interface Question {
  species: string;
  person: string;
  kept: number;
  ask: Catch;
}

/** Everyone aboard or with fish, and every kind that the rules of these waters know. */
function questions(bag: InBag[]): Question[] {
  const set = inForce();
  const waters = watersNow();
  if (!set || !waters) return [];
  const all = [...new Set([...anglers(), ...bag.map((one) => one.person)])];
  return speciesOf(set, waters).flatMap((species) =>
    all.map((person) => {
      const counts = countOf(bag, species, person);
      const ask = catchOf(set, waters, {
        species,
        length: fitting(set, species, waters),
        ...counted(counts, person),
        aboard: fishing(),
      });
      return { species, person, kept: counts.byPerson, ask };
    }),
  );
}

const bags = ["bag of the person full", "bag of the boat full"];

function roomOf({ species, person, kept, ask }: Question, { byRules, reasons, ...more }: Judgement): Room {
  // The desk tells what is left after one more fish, where one more may be kept.
  const now = (after: number) => (byRules === "keep" && after >= 0 ? after + 1 : after);
  return {
    species,
    person,
    kept,
    keptByBoat: ask.byBoat ?? 0,
    more: now(isSeveral(person) ? more.moreByBoat : more.moreByPerson),
    moreByBoat: now(more.moreByBoat),
    closed: reasons.some(({ why }) => !bags.includes(why)),
    ask: more.askHowMany,
  };
}

function useRooms(): Room[] {
  const asked = questions(bagNow());
  const rooms = useSignal<Room[]>([]);
  const key = JSON.stringify(asked);
  useEffect(() => {
    let wanted = true;
    const all: Question[] = JSON.parse(key);
    Promise.all(all.map(async (one) => roomOf(one, await desk.ask("keep", one.ask))))
      .then((answers) => {
        if (wanted) rooms.value = answers;
      })
      .catch((fault) => {
        if (!(fault instanceof Died || fault instanceof Refused)) throw fault;
      });
    return () => {
      wanted = false;
    };
  }, [key, rooms]);
  return rooms.value;
}

/** Filled red, wherever fish are brought in or counted; where it depends on how many fish, that is asked. */
export function BagStop() {
  const rooms = useRooms();
  return speciesIn(rooms).map((species) => {
    const of = rooms.filter((room) => room.species === species);
    return of.some(({ ask }) => ask) ? <HowMany key={species} /> : <Stop key={species} of={of} />;
  });
}

/** The stop alone, where nothing can be tapped. */
export function LockedBagStop() {
  const rooms = useRooms().filter(({ ask }) => !ask);
  return speciesIn(rooms).map((species) => (
    <Stop key={species} of={rooms.filter((room) => room.species === species)} />
  ));
}

/** Of one species. */
function Stop({ of }: { of: Room[] }) {
  const [first] = of;
  const said = stopWords(of);
  if (!first || !said) return null;
  const name = speciesName(first.species);
  return (
    <div class="notice alarm fish-stop" role="alert">
      <p>
        <Warning /> {said.words}
      </p>
      <p>{said.all ? t.stopWhat(name) : t.stopTheirs(name)}</p>
    </div>
  );
}

/** Who must stop: undefined where nobody has to; all: everybody aboard. */
function stopWords(of: Room[]): { words: string; all: boolean } | undefined {
  const [first] = of;
  if (!first) return undefined;
  const people = anglers();
  const here = of.filter(({ person }) => people.includes(person));
  if (first.closed) return { words: t.closed(speciesName(first.species)), all: true };
  const full = here.filter(({ more }) => more === 0);
  if (full.length === 0) return undefined;
  if (of.length === 1) return { words: t.stop(""), all: true };
  if (first.moreByBoat === 0 || full.length === here.length) return { words: t.stopBoat, all: true };
  return { words: t.stop(full.map(({ person }) => person).join(", ")), all: false };
}

const speciesIn = (rooms: Room[]): string[] => [...new Set(rooms.map(({ species }) => species))];

/** Who has how many. */
export function Bag() {
  const rooms = useRooms();
  const several = rooms.length > 1;
  return (
    <>
      {speciesIn(rooms).map((species) => {
        const of = rooms.filter((room) => room.species === species);
        const [first] = of;
        return (
          <section key={species} class="fish-bag">
            <h2>
              {t.title}: {speciesName(species)}
            </h2>
            <dl class="facts">
              {of.map(({ person, kept, more, closed, ask }) => (
                <div key={person}>
                  <dt>{person || (several ? text.fish.judge.unnamed : text.fish.judge.me)}</dt>
                  <dd>
                    {t.row(kept)}, {ask ? text.fish.howMany.unsaid : t.more(closed ? 0 : more)}
                  </dd>
                </div>
              ))}
            </dl>
            {several && first && (
              <p>{t.boat(first.keptByBoat, t.more(first.closed ? 0 : first.moreByBoat))}</p>
            )}
            <p class="soft">{t.known}</p>
          </section>
        );
      })}
      {rooms.length > 0 && <HowManyNow />}
    </>
  );
}
