/** Which of the hookups in the notes belongs to a fish that comes up. */
import { byPhone } from "../crew/role";
import { type Folded, words } from "../entry/fold";
import { refer } from "../log/refer";
import { isCrews } from "../log/whose";

/** A hookup longer ago than this was another fish, ms. */
const fight = 15 * 60_000;

/**
 * The hookups of the last quarter of an hour that nobody has told the end of, and that belong to no other fish; taken are
 * the notes of those, by trip and record. A clock that is a little ahead does not matter.
 */
export function openHookups(all: Folded[], taken: string[], now: number): Folded[] {
  return all.filter(
    (record) =>
      record.kind === "mark" &&
      !record.struck &&
      !words(record, "fate") &&
      words(record, "fish") !== "lost" &&
      !taken.some((note) => note.endsWith(`.${record.id}`)) &&
      Math.abs(now - (record.entries[0]?.at ?? 0)) <= fight,
  );
}

/**
 * The last; one of a guest's phone that tells of more than it is offered only where there is no other. Which of several it
 * is, is asked.
 */
export function hookupFor(all: Folded[], taken: string[], now: number): Folded | undefined {
  const some = openHookups(all, taken, now);
  const tooMany = ofGuests(some).filter(({ length }) => length > mostOfGuest);
  return some.findLast((one) => !tooMany.some((of) => of.includes(one))) ?? some.at(-1);
}

/** Of one guest's phone at most so many are offered, the latest: a judgement. */
const mostOfGuest = 3;

/** Those of guests, by their phones. */
const ofGuests = (some: Folded[]): Folded[][] =>
  byPhone(
    some.filter((one) => !isCrewsOwn(one)),
    ({ entries: [first] }) => first,
  );

/** The same to choose from: the crew's before those of guests, of whom none keeps the others' out of sight. */
export const toChoose = (some: Folded[], chosen = ""): Folded[] => [
  ...some.filter(isCrewsOwn),
  ...ofGuests(some).flatMap((of) =>
    of.filter((one, i) => i >= of.length - mostOfGuest || refer(one) === chosen),
  ),
];

/** Those that somebody of the crew told. */
export const crewsHookups = (all: Folded[], taken: string[], now: number): Folded[] =>
  openHookups(all, taken, now).filter(isCrewsOwn);

/** So soon after its fish was landed or got off no line is out again, ms: a judgement. */
const inBoat = 3 * 60_000;

/** Those of the crew whose fish was landed or got off just now, and whose line nobody has noted out since: it is in the boat. */
export const linesIn = (all: Folded[], now: number): Folded[] =>
  all.filter((record) => {
    const end = record.kind === "mark" && !record.struck && isCrewsOwn(record) ? endOf(record) : undefined;
    return (
      end !== undefined && Math.abs(now - end) <= inBoat && !all.some((one) => tellsOut(one, record, end))
    );
  });

/** When somebody told what became of its fish, ms; undefined: nobody did. */
function endOf(record: Folded): number | undefined {
  const told = words(record, "fate") ? "fate" : words(record, "fish") === "lost" ? "fish" : undefined;
  return told && record.fields.get(told)?.from.at;
}

const tellsOut = (one: Folded, { fields }: Folded, after: number): boolean =>
  !one.struck &&
  (one.entries[0]?.at ?? 0) > after &&
  (one.kind === "lines" ||
    (["mark", "touch", "clear"].includes(one.kind) && words(one, "rod") === fields.get("rod")?.value));

const isCrewsOwn = ({ entries: [first] }: Folded): boolean => !first || first.own === true || isCrews(first);
