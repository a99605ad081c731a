/** The bag of today: who has how many, how many more there may be, and the stop that nobody overlooks. */
import { useSignal } from "@preact/signals";
import { Fragment } from "preact";
import { useEffect } from "preact/hooks";
import { Died, Refused } from "../../../base/desk/desk";
import { Warning } from "../../../base/parts/icons";
import { text } from "../../../base/text/text";
import { bagNow } from "../../../state/fish/people";
import { HowMany, HowManyNow } from "./how-many";
import { speciesName } from "./names";
import {
  boatWords,
  type Question,
  questions,
  type Room,
  roomFor,
  rowWords,
  speciesIn,
  stopWords,
} from "./rooms";

const t = text.fish.bag;

function useRooms(): Room[] {
  const asked = questions(bagNow());
  const rooms = useSignal<Room[]>([]);
  const key = JSON.stringify(asked);
  useEffect(() => {
    let wanted = true;
    const all: Question[] = JSON.parse(key);
    Promise.all(all.map(roomFor))
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
    return (
      <Fragment key={species}>
        <Stop of={of} />
        {of.some(({ ask }) => ask) && <HowMany />}
      </Fragment>
    );
  });
}

/** The stop alone, where nothing can be tapped. */
export function LockedBagStop() {
  const rooms = useRooms();
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

/** Who has how many. */
export function Bag() {
  const rooms = useRooms();
  return (
    <>
      {speciesIn(rooms).map((species) => {
        const of = rooms.filter((room) => room.species === species);
        const together = boatWords(of);
        return (
          <section key={species} class="fish-bag">
            <h2>
              {t.title}: {speciesName(species)}
            </h2>
            <dl class="facts">
              {of.map((room) => (
                <div key={room.person}>
                  <dt>{room.person || (together ? text.fish.judge.unnamed : text.fish.judge.me)}</dt>
                  <dd>{rowWords(room)}</dd>
                </div>
              ))}
            </dl>
            {together && <p>{together}</p>}
            <p class="soft">{t.known}</p>
          </section>
        );
      })}
      {rooms.length > 0 && <HowManyNow />}
    </>
  );
}
