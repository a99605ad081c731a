/** The touches of all trips on this phone, and what they teach: gathered and worked out anew when something changes. */
import { computed, effect, signal, untracked } from "@preact/signals";
import { Died, desk, Refused } from "../../base/desk/desk";
import { type Answer, type Judged, limits, type Query } from "../../base/desk/types/calibrate.gen";
import { Kept } from "../../base/store/kept";
import { list, words } from "../../base/store/shape";
import type { Stored } from "../entry/entry";
import { type Folded, foldAll, words as wordsOf } from "../entry/fold";
import { type Gear, gear, pick } from "../gear/gear";
import { LatestRecords } from "../log/beside/latest";
import { projected } from "../log/beside/projecting";
import { changesOf } from "../log/changes";
import { book } from "../log/log";
import { amend } from "../log/saying/say";
import { type Doubts, doubt } from "../spread/doubt";
import { type Lesson, lessons } from "../spread/learned";
import { bareRod, groundFor, kindsOn, seaFor } from "../spread/request";
import { type Spread, spread } from "../spread/spread";
import { properties } from "../spread/water";
import {
  isGuess,
  most,
  type Noted,
  notedIn,
  notedOf,
  observations,
  type Seen,
  type Touch,
  taughtKind,
  together,
  touching,
} from "./observe";
import { seenOf, taught } from "./taught";

/**
 * Those that are not struck out, the latest first: so many that more would not be counted. Undefined until they are known
 * of all trips.
 */
export const touches = signal<Touch[] | undefined>(undefined);

/** What was taught and is in the log, each once, the latest first; undefined until the log has been read. */
export const taughtInLog = signal<Noted[] | undefined>(undefined);

/** What the log has of it, struck out or not, by the name under which a phone knew it before. */
export const inLog = signal<ReadonlyMap<string, Folded>>(new Map());

/** What is on this phone only. */
export const taughtHere = computed(() => taught.signal.value.filter(({ id }) => !inLog.value.has(id)));

/** Touches that the desk will not have, by record: another hand wrote what makes no request. */
const unsound = signal<ReadonlySet<string>>(new Set());

/** Those that calibration is asked with. */
export const counted = computed(() =>
  (touches.value ?? [])
    .filter(
      (touch) =>
        touch.seen &&
        !isLeftOut(touch) &&
        !unsound.value.has(touch.record.id) &&
        !guesses.value.includes(touch),
    )
    .slice(0, most),
);

/** Those of other phones that move nothing here until somebody has looked at them. */
export const guesses = computed(() =>
  (touches.value ?? []).filter((one, _, all) => isGuess(one, all) && !isLeftOut(one)),
);

/** Phones whose touches move nothing here, by somebody's choice on this one. */
export const leftOut = new Kept<string[]>("touches-left-out", list(words, 100), []);

const isLeftOut = ({ record: { entries } }: Touch): boolean =>
  entries[0]?.own !== true && leftOut.value.includes(entries[0]?.by ?? "");

/** The other phones that touches of the log come from: each with one of its entries, and whether it is left out. */
export const otherPhones = computed(() => {
  const all = new Map<string, Stored>();
  for (const { record } of touches.value ?? []) {
    const [first] = record.entries;
    if (first?.by && !first.own && !all.has(first.by)) all.set(first.by, first);
  }
  return [...all].map(([by, first]) => ({ by, first, out: leftOut.value.includes(by) }));
});

/** Counts a phone's touches here, or does not. */
export const leaveOutPhone = (by: string, out: boolean): void =>
  leftOut.set([...leftOut.value.filter((one) => one !== by), ...(out ? [by] : [])]);

/** Whom the touches that count come from: an entry of each. */
export const learnedFrom = computed(() =>
  counted.value.flatMap(({ record: { entries } }) => entries[0] ?? []),
);

/** Somebody has looked at it: the depth of water was as it says. */
export const takeGuess = ({ record }: Touch): void =>
  amend(record, { bottom: record.fields.get("bottom")?.value });

/** All that calibration is asked with: touches first, then what somebody knows without them. */
export const observed = computed<Seen[]>(() => {
  const g = gear.value;
  const here = taughtHere.value.map((one) => ({ id: one.id, at: one.at, seen: seenOf(one, g) }));
  const known = [...(taughtInLog.value ?? []), ...here].filter(
    ({ id, seen }) => seen && !unsound.value.has(id),
  );
  return [...counted.value, ...known].slice(0, most);
});

/** How what was taught goes with all others, by its id. */
export const judgedTaught = signal<ReadonlyMap<string, Judged>>(new Map());

/** How the last touches of each wire came out. */
export const records = signal<Answer["records"]>([]);

/** Each of those counted beside all others. */
export const judged = signal<{ touch: Touch; verdict: Judged }[]>([]);

export const contradictions = computed(() =>
  judged.value.filter(({ verdict }) => verdict.verdict === "contradicts"),
);

/** What calibration is asked for the spread as it is set. */
export function queryFor(seen: Seen[], at: number, g: Gear, now: Spread, doubts: Doubts): Query {
  const rigs = now.rods.map((rod) => pick(g.rigs, rod.rig));
  // Lighter ones than are on would want more line than there is wire.
  const lightest = Math.min(...now.rods.map(({ drail }) => drail));
  const aboard = g.drails.filter(({ number, mass }) => number > 0 && mass >= lightest);
  return {
    observations: observations(seen, at),
    doubt: doubts,
    ...unevenGround(now),
    sea: seaFor(now, properties.value),
    rods: now.rods.map((rod, i) => ({
      rod: bareRod(g, rod),
      ...kindsOn(g, rigs[i] ?? pick(g.rigs, rod.rig)),
    })),
    drails: [...new Set([lightest, ...aboard.map(({ mass }) => mass)])].slice(0, 10),
    above: Math.min(...rigs.map(({ leaderLength }) => leaderLength)),
  };
}

/** How well the bottom is known. A touch is believed no more than the desk believes one, even if nobody doubts the bottom. */
function unevenGround(now: Spread) {
  const ground = groundFor(now);
  return { ...ground, bottomDoubt: Math.max(ground.bottomDoubt, limits.Query.bottomDoubt.min) };
}

/** Gathers with every change of what is gathered, and calibrates with every change of what it rests on. */
export function keepCalibrating(): void {
  const felt = changesOf(touching);
  effect(() => {
    projected.value;
    leftOut.signal.value;
    unsound.value;
    if (felt.value) untracked(gatherTouches);
  });
  const told = changesOf([taughtKind]);
  effect(() => {
    if (told.value) untracked(gatherTaught);
  });
  // What is learned hangs on the kinds of wire and lure and on how well the bottom is known, not on how much line is out.
  const kinds = computed(() => {
    const g = gear.value;
    return g.rigs.length > 0
      ? JSON.stringify(spread.value.rods.map((rod) => kindsOn(g, pick(g.rigs, rod.rig))))
      : "[]";
  });
  const ground = computed(() => JSON.stringify(groundFor(spread.value)));
  effect(() => {
    desk.restarts.value;
    doubt.signal.value;
    ground.value;
    const seen = observed.value;
    if (touches.value && taughtInLog.value && kinds.value !== "[]") untracked(() => calibrate(seen));
  });
}

/** Does it again as long as it is asked to meanwhile, one at a time. */
function oneAtATime(work: () => Promise<void>): () => Promise<void> {
  let working = false;
  let again = false;
  return async () => {
    again = true;
    if (working) return;
    working = true;
    try {
      while (again) {
        again = false;
        await work();
      }
    } catch {
      // That the log cannot be read is told where it is read; what was learned before still holds.
    } finally {
      working = false;
    }
  };
}

/** So many are read at first: some do not count. */
const atFirst = most + 20;

const latest = new LatestRecords(touching, true);

/** What does not say how the rod was rigged is shown, and what others felt is held against it; these are enough for both. */
const untold = new LatestRecords(touching, false);

const gatherTouches = oneAtATime(async () => {
  for (let count = atFirst; ; count *= 2) {
    const [found, others] = await Promise.all([latest.first(count), untold.first(2 * most)]);
    if (!found || !others) return;
    const all = notedOf([...found.records, ...others.records]);
    if (gist(all) !== gist(touches.value ?? []) || !touches.value) touches.value = all;
    if (!found.more || isEnough(notedOf(found.records))) return;
  }
});

/** Whether none before these would be counted, nor tell whether one that is counted is a guess. */
function isEnough(all: Touch[]): boolean {
  const last = counted.value[most - 1];
  const first = all.at(-1);
  return last !== undefined && first !== undefined && first.at < last.at - together;
}

const gatherTaught = oneAtATime(async () => {
  const told = await book.entriesOfKinds([taughtKind]);
  const known = eachOnce(foldAll(told));
  const counting = notedIn(told).filter(({ record }) => known.get(knownBy(record))?.id === record.id);
  inLog.value = known;
  if (gist(counting) !== gist(taughtInLog.value ?? []) || !taughtInLog.value) taughtInLog.value = counting;
});

/** The name under which a phone knew it before it was in the log. */
export const knownBy = (record: Folded): string => wordsOf(record, "taught") ?? record.id;

/** Two phones may have noted one: the first holds. */
function eachOnce(all: Folded[]): Map<string, Folded> {
  const known = new Map<string, Folded>();
  for (const record of all) if (!known.has(knownBy(record))) known.set(knownBy(record), record);
  return known;
}

/** What there is to learn from, so that only a change of it is learned from anew. */
const gist = (all: Noted[]): string =>
  all.map(({ record }) => record.entries.map(({ id }) => id).join()).join(" ");

async function calibrate(seen: Seen[]): Promise<void> {
  const now = spread.value;
  try {
    if (seen.length === 0) return take([], undefined, now);
    const answer = await desk.newest("calibrate", queryFor(seen, Date.now(), gear.value, now, doubt.value));
    if (answer) take(seen, answer, now);
  } catch (fault) {
    if (fault instanceof Refused) leaveOut(seen, fault);
    else if (!(fault instanceof Died)) throw fault;
  }
}

function take(seen: Seen[], answer: Answer | undefined, now: Spread): void {
  const told = new Map<string, Judged>();
  const felt = new Map(touches.value?.map((touch) => [touch.id, touch]));
  judged.value = seen.flatMap((one, i) => {
    const verdict = answer?.observations[i];
    const touch = felt.get(one.id);
    if (verdict && !touch) told.set(one.id, verdict);
    return verdict && touch ? [{ touch, verdict }] : [];
  });
  judgedTaught.value = told;
  records.value = answer?.records ?? [];
  const used = answer?.used ?? 0;
  const of: Lesson[] = [];
  if (used > 0) {
    now.rods.forEach((rod, i) => {
      const kinds = kindsOn(gear.value, pick(gear.value.rigs, rod.rig));
      const learned = answer?.rods[i]?.learned;
      if (learned && !of.some(({ wire, lure }) => wire === kinds.wire && lure === kinds.lure))
        of.push({ ...kinds, learned });
    });
  }
  const before = lessons.value;
  if (JSON.stringify([used, of]) !== JSON.stringify([before.used, before.of]))
    lessons.fill({ on: before.on, used, of });
}

/** Calibrates without those that the desk complains of. */
function leaveOut(seen: Seen[], { problems }: Refused): void {
  const bad = problems.flatMap(({ field }) => {
    const one = seen[Number(/^observations\[(\d+)\]/.exec(field)?.[1])];
    return one ? [one.id] : [];
  });
  if (bad.length > 0) unsound.value = new Set([...unsound.value, ...bad]);
}
