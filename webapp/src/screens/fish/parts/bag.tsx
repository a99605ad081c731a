/** The bag of today: who has how many, how many more there may be, and the stop that nobody overlooks. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Died, Refused } from "../../../base/desk/desk";
import type { Told } from "../../../base/parts/around";
import { Notice } from "../../../base/parts/notice";
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

export function useRooms(): Room[] {
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

/** Filled red, wherever fish are brought in or counted: one for each species of which somebody must stop. */
export const stops = (rooms: Room[]): Told[] =>
  speciesIn(rooms).flatMap((species) => {
    const said = stopWords(rooms.filter((room) => room.species === species));
    if (!said) return [];
    const name = speciesName(species);
    const whole = (
      <Notice alarm kind="fish-stop">
        <b>{said.words}</b>
        <br />
        {said.all ? t.stopWhat(name) : t.stopTheirs(name)}
      </Notice>
    );
    return { short: t.stopShort(name), whole };
  });

/** Where it depends on how many fish, that is asked. */
export const HowManyAsked = ({ rooms }: { rooms: Room[] }) => rooms.some(({ ask }) => ask) && <HowMany />;

/** On a page, where nothing else tells it. */
export function BagStop() {
  const rooms = useRooms();
  return (
    <>
      {stops(rooms).map(({ whole }) => whole)}
      <HowManyAsked rooms={rooms} />
    </>
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
