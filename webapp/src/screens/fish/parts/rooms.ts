/** How much room there is in whose bag, and in words: who has how many, and who must stop. */
import { desk } from "../../../base/desk/desk";
import type { Catch, Judgement } from "../../../base/desk/types/fish.gen";
import { text } from "../../../base/text/text";
import { countOf, type InBag } from "../../../state/fish/count";
import { anglers, counted, fishing, isSeveral } from "../../../state/fish/people";
import { catchOf, fitting, inForce, speciesOf, watersNow } from "../../../state/rules/rules";
import { speciesName } from "./names";

const t = text.fish.bag;

export interface Room {
  species: string;
  person: string;
  /** Several who are not named. */
  isSeveral: boolean;
  kept: number;
  keptByBoat: number;
  /** How many more; −1: no limit. Of somebody unnamed it is certain only where ask is not set. */
  more: number;
  moreByBoat: number;
  /** Not to be kept by anybody now, bag or not. */
  closed: boolean;
  /** How many all may keep depends on how many fish, and nobody has said. */
  ask: boolean;
}

export interface Question {
  species: string;
  person: string;
  isSeveral: boolean;
  kept: number;
  /** At least so many people fish, by whose fish there are. */
  atLeast: number;
  ask: Catch;
}

/** Everyone aboard or with fish, and every kind that the rules of these waters know. */
export function questions(bag: InBag[]): Question[] {
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
      return {
        ...{ species, person, isSeveral: isSeveral(person), kept: counts.byPerson },
        ...{ atLeast: all.length, ask },
      };
    }),
  );
}

/** The room of one; what somebody named may keep is certain also while nobody has said how many fish. */
export async function roomFor(question: Question): Promise<Room> {
  const { ask } = question;
  // What all may keep depends on nobody's own bag while nobody has said how many they are.
  const all = await desk.ask("keep", ask.aboard ? ask : { ...ask, byPerson: 0 });
  const own =
    all.askHowMany && question.person ? await desk.ask("keep", { ...ask, aboard: question.atLeast }) : all;
  return roomOf(question, all, own);
}

const bags = ["bag of the person full", "bag of the boat full"];

export function roomOf(question: Question, all: Judgement, own: Judgement): Room {
  const { species, person, kept, ask } = question;
  // The desk tells what is left after one more fish, where one more may be kept.
  const now = ({ byRules }: Judgement, after: number) =>
    byRules === "keep" && after >= 0 ? after + 1 : after;
  const moreByBoat = now(all, all.moreByBoat);
  return {
    ...{ species, person, isSeveral: question.isSeveral, kept },
    keptByBoat: ask.byBoat ?? 0,
    more: question.isSeveral ? moreByBoat : now(own, own.moreByPerson),
    moreByBoat,
    closed: all.reasons.some(({ why }) => !bags.includes(why)),
    ask: all.askHowMany,
  };
}

export const speciesIn = (rooms: Room[]): string[] => [...new Set(rooms.map(({ species }) => species))];

/** Who must stop, of one species: undefined where nobody has to; all: everybody aboard. */
export function stopWords(of: Room[], people = anglers()): { words: string; all: boolean } | undefined {
  const [first] = of;
  if (!first) return undefined;
  if (first.closed) return { words: t.closed(speciesName(first.species)), all: true };
  const here = of.filter(({ person }) => people.includes(person));
  const full = of.filter(
    ({ person, more, ask }) => more === 0 && (person ? true : !ask && people.includes(person)),
  );
  if (full.length === 0) return undefined;
  const theirs = { words: t.stop(full.map(({ person }) => person).join(", ")), all: false };
  if (first.ask) return theirs;
  if (of.length === 1) return { words: t.stop(""), all: true };
  if (first.moreByBoat === 0 || here.every((one) => full.includes(one)))
    return { words: t.stopBoat, all: true };
  return theirs;
}

/** How many one has, and how many more; of several who are not named only all together have room. */
export function rowWords({ person, isSeveral, kept, more, closed, ask }: Room): string {
  if (isSeveral) return t.row(kept);
  return `${t.row(kept)}, ${ask && !person ? text.fish.howMany.unsaid : t.more(closed ? 0 : more)}`;
}

/** All together, of one species; empty where one alone has them. */
export function boatWords(of: Room[]): string {
  const [first] = of;
  if (!first || (of.length === 1 && !first.isSeveral)) return "";
  const more = first.ask ? text.fish.howMany.unsaid : t.more(first.closed ? 0 : first.moreByBoat);
  return t.boat(first.keptByBoat, more);
}
