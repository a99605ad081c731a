/** The rules of size and bag on this phone: sets to begin with, changed as the skipper likes. */
import { Died, desk } from "../../base/desk/desk";
import {
  type Bag,
  type Book,
  type Catch,
  type Date as DayOfYear,
  limits,
  type Rule,
} from "../../base/desk/types/fish.gen";
import { newId } from "../../base/store/id";
import { Kept } from "../../base/store/kept";
import { flag, list, number, oneOf, record, within, words, wordsUpTo } from "../../base/store/shape";

export interface OwnRule extends Rule {
  id: string;
  bags: Bag[];
  /** Set or changed on this phone. */
  own: boolean;
}

export interface RuleSet {
  id: string;
  name: string;
  asOf: string;
  rules: OwnRule[];
}

export interface Rules {
  sets: RuleSet[];
  /** Which set is used, by its id. */
  set: string;
  /** Where the boat is; empty until somebody has said. */
  waters: string;
}

const of = limits.Rule;
export const mostRules = limits.Catch.rules.most;
const day = record<DayOfYear>({ month: within(limits.Date.month), day: within(limits.Date.day) });
const text = ({ longest }: { longest: number }) => wordsUpTo(longest);

const rule = record<OwnRule>(
  {
    id: words,
    own: flag,
    species: text(of.species),
    waters: text(of.waters),
    from: day,
    to: day,
    min: within(of.min),
    minKept: flag,
    max: within(of.max),
    maxKept: flag,
    bags: list(record<Bag>({ count: number, per: oneOf("person", "boat") }), of.bags.most),
    noFishing: flag,
    gear: text(of.gear),
    note: text(of.note),
    source: text(of.source),
    statesOwn: flag,
    validFrom: text(of.validFrom),
    validTo: text(of.validTo),
    checkedOn: text(of.checkedOn),
  },
  { statesOwn: false, validTo: "" },
);

export const setShape = record<RuleSet>({
  id: words,
  name: words,
  asOf: words,
  rules: list(rule, mostRules),
});

export const rules = new Kept<Rules>(
  "rules",
  record<Rules>({
    sets: list(setShape, 60),
    set: words,
    waters: wordsUpTo(of.waters.longest),
  }),
  { sets: [], set: "", waters: "" },
);

/** The rules to begin with, with ids. */
export function fromBook(book: Book): Rules {
  const sets = book.sets.map((set) => ({
    ...set,
    id: newId(),
    rules: set.rules.map((one) => ({ ...one, bags: one.bags ?? [], id: newId(), own: false })),
  }));
  return { sets, set: sets[0]?.id ?? "", waters: "" };
}

/** Asks for the rules to begin with where there are none. */
export async function fillRules(): Promise<void> {
  if (rules.value.sets.length > 0) return;
  try {
    const book = await desk.ask("rules", {});
    if (rules.value.sets.length === 0) rules.fill(fromBook(book));
  } catch (fault) {
    // With the next calculator it is asked again.
    if (!(fault instanceof Died)) throw fault;
  }
}

/** The set that is used. */
export const inForce = ({ sets, set }: Rules = rules.value): RuleSet | undefined =>
  sets.find((one) => one.id === set) ?? sets[0];

/** Where the boat is, if the set that is used knows those waters. */
export const watersNow = (all: Rules = rules.value): string =>
  inForce(all)?.rules.some((one) => one.waters === all.waters) ? all.waters : "";

const distinct = (all: string[]): string[] => [...new Set(all)];

export const watersOf = (set: RuleSet | undefined): string[] =>
  distinct(set?.rules.map((one) => one.waters) ?? []);

export const speciesOf = (set: RuleSet | undefined, waters = ""): string[] =>
  distinct(set?.rules.filter((one) => !waters || one.waters === waters).map((one) => one.species) ?? []);

/** The rules as the desk takes them. */
export const plainRules = ({ rules: of }: Pick<RuleSet, "rules">): Rule[] =>
  of.map(({ id: _, own: __, ...one }) => one);

export const today = (at = new Date()): DayOfYear => ({ month: at.getMonth() + 1, day: at.getDate() });

/** “2026-07-04”, by this phone's clock. */
export const isoDay = (at = new Date()): string =>
  [at.getFullYear(), ...[at.getMonth() + 1, at.getDate()].map((part) => String(part).padStart(2, "0"))].join(
    "-",
  );

/** A fish of a length that may be kept: to ask how many more may be. */
export function fitting(set: RuleSet, species: string, waters: string): number {
  const fit = set.rules.filter((one) => one.species === species && one.waters === waters);
  const min = Math.max(0, ...fit.map((one) => one.min));
  const max = Math.min(...fit.filter((one) => one.max > 0).map((one) => one.max), min + 0.2);
  return Math.max((min + max) / 2, limits.Catch.length.min);
}

export interface Asked {
  species: string;
  length: number;
  byPerson: number;
  byBoat: number;
  /** How many people fish; 0: nobody has said. */
  aboard: number;
}

/** What the desk is asked about a fish. */
export const catchOf = (set: RuleSet, waters: string, asked: Asked, at = new Date()): Catch => ({
  rules: plainRules(set),
  waters,
  today: today(at),
  year: at.getFullYear(),
  // What another version or phone kept is judged as it is: with a date that cannot be read it is to be looked up.
  asKept: true,
  ...asked,
  // What somebody noted beyond what the desk takes is all the same more than any bag.
  byPerson: Math.min(asked.byPerson, limits.Catch.byPerson.max),
  byBoat: Math.min(asked.byBoat, limits.Catch.byBoat.max),
  aboard: Math.min(asked.aboard, limits.Catch.aboard.max),
});
