/** The fish of the last days as this phone knows them: in hand, in the slush, let go. Kept through lock and restart. */
import { limits } from "../../base/desk/types/fish.gen";
import { type Moment, now } from "../../base/position/moment";
import { newId } from "../../base/store/id";
import { Kept } from "../../base/store/kept";
import { list, number, oneOf, orNone, record, within, words } from "../../base/store/shape";

export const steps = ["land", "measure", "judge", "bleed", "slush", "release"] as const;
export type Step = (typeof steps)[number];

const fates = ["", "kept", "released", "lost"] as const;

export interface Fish {
  id: string;
  /** When it came up. */
  up: Moment;
  /** What is being done with it; over: nothing any more. */
  step: Step | "over";
  /** What has been ticked, by step and place. */
  ticks: string[];
  species: string;
  /** Total length in m; 0 while it is not measured. */
  length: number;
  fate: (typeof fates)[number];
  /** Whose it is; empty where nobody is named. */
  person: string;
  /** Since when it is out of the water. */
  out: Moment | null;
  bled: Moment | null;
  iced: Moment | null;
  /** Its note, by trip and record; empty without one. */
  note: string;
  /** The note was begun with it, not before. */
  began: boolean;
}

/** Of a fish that is neither small nor large, m: 30 in; where a measure begins and none was taken. */
export const usualLength = 0.762;

const moment = record<Moment>({ wall: number, run: number });

/** More than a boat catches in a week; the oldest make room. */
const most = 100;

export const fishes = new Kept<Fish[]>(
  "fish",
  list(
    record<Fish>({
      id: words,
      up: moment,
      step: oneOf(...steps, "over"),
      ticks: list(words, 100),
      species: words,
      length: within({ min: 0, max: limits.Catch.length.max }),
      fate: oneOf(...fates),
      person: words,
      out: orNone(moment),
      bled: orNone(moment),
      iced: orNone(moment),
      note: words,
      began: (raw) => raw === true,
    }),
    most,
  ),
  [],
);

export const fishOf = (id: string): Fish | undefined => fishes.value.find((one) => one.id === id);

export function change(id: string, patch: Partial<Fish>): void {
  fishes.set(fishes.value.map((one) => (one.id === id ? { ...one, ...patch } : one)));
}

/** One more in hand. */
export function begin(species: string, note: string, began: boolean): Fish {
  const fish: Fish = {
    id: newId(),
    up: now(),
    step: "land",
    ticks: [],
    species,
    length: 0,
    fate: "",
    person: "",
    out: null,
    bled: null,
    iced: null,
    note,
    began,
  };
  fishes.set([...fishes.value, fish].slice(-most));
  return fish;
}

/** Takes it off the list; returns the way to have it back. */
export function remove(id: string): () => void {
  const before = fishes.value;
  fishes.set(before.filter((one) => one.id !== id));
  return () => fishes.set(before);
}

export const inHand = (): Fish[] => fishes.value.filter((fish) => fish.step !== "over");

/** Kept and not too long ago to be still in the box. */
export const onIce = (): Fish[] =>
  fishes.value.filter(
    ({ step, fate, up }) => step === "over" && fate === "kept" && Date.now() - up.wall < 4 * 86_400_000,
  );
