/** Who fishes, from the notes of the running trip and what was told; without either nobody knows. */
import { aboardNow, heads } from "../crew/aboard";
import { byPhone, isGuests, mayChange } from "../crew/role";
import { words } from "../entry/fold";
import { ofKind, records, running, shownTrip } from "../log/log";
import { eachOnce, mineFirst, oneSpelling } from "../log/names";
import { refer } from "../log/refer";
import { onlyOne } from "../notes/whose";
import { type InBag, keptToday } from "./count";
import { type Fish, fishes } from "./fishes";
import { noted } from "./lately";

/** The records of the trip that runs; none while another one is on screen. */
export const ofTrip = () => (isShown() ? records.value : []);

const isShown = () => running.value && shownTrip.value === running.value.trip;

/** Each once. */
const named = (of = persons()): string[] => eachOnce(of.map((record) => words(record, "name") ?? ""));

const persons = () => (isShown() ? ofKind("person") : []).filter((record) => !record.struck);

/** A guest's phone counts as one who fishes, whomever else it names: else it could give all of them more than the law does. */
function counting(): number {
  const all = persons();
  const guests = byPhone(all.filter(isGuests), ({ entries: [first] }) => first);
  const crews = all.filter((record) => !isGuests(record));
  return named([...crews, ...guests.flatMap(([first]) => first ?? [])]).length;
}

/** How many fish: as told, else as many as are named, if those are all; 0: nobody has said. */
export function fishing(): number {
  const names = counting();
  // One name is seldom the whole boat, nor are fewer than are aboard.
  return heads.value.fishing || (names > 1 && names >= aboardNow().count ? names : 0);
}

/** Whose a fish can be: names, and an empty one for those who are not named, of whom there may be some until all are known. */
export function anglers(): string[] {
  const names = named();
  const count = fishing();
  return names.length === 0 || count === 0 || count > names.length ? [...names, ""] : names;
}

/**
 * Whom a fish that is kept here may be given to, this phone's person first. A guest's phone is that guest's; one of the
 * crew's may be the boat's, and is thought of only where somebody is to be chosen anyway.
 */
export function keepers(): string[] {
  const all = anglers();
  return mineFirst(all, all.includes("") && (all.length > 1 || !mayChange()));
}

/** Notes of fish of every trip of today; those of the one that runs as they are by now, on disk or not. */
function ofToday() {
  const here = ofTrip();
  const known = new Set(here.map(({ id }) => id));
  return [...here, ...noted.value.filter(({ id }) => !known.has(id))];
}

/** What was kept today, but for the fish that is being judged. */
export function bagNow(but?: Fish): InBag[] {
  const here = new Set(ofTrip());
  const only = onlyOne(ofTrip());
  return keptToday(
    ofToday().filter((record) => refer(record) !== but?.note),
    fishes.value.filter((fish) => fish.id !== but?.id),
    Date.now(),
    (record) => (here.has(record) ? only : ""),
    oneSpelling(named()),
  );
}

/** Where several are not named, nobody knows whose a fish is: then only what all have together counts. */
export const isSeveral = (person: string): boolean => person === "" && fishing() - named().length > 1;

/** What somebody and all together have, as the desk counts it. */
export const counted = (all: { byPerson: number; byBoat: number }, person: string) =>
  isSeveral(person) ? { ...all, byPerson: 0 } : all;
