/**
 * The Lines place at work: every change of spread or gear is shown at once, asked of the desk, and taken back
 * if the desk refuses it.
 */
import { batch, computed, effect, signal, untracked } from "@preact/signals";
import { Died, desk, Refused } from "../../base/desk/desk";
import type { Problem } from "../../base/desk/types/codec.gen";
import type { RodAnswer } from "../../base/desk/types/towline.gen";
import type { ThumbAnswer } from "../../base/desk/types/trade.gen";
import { offerUndo } from "../../base/shell/undo";
import { complete, gear } from "../gear/gear";
import { Answers } from "./answers";
import { doubtNow } from "./doubt";
import { keepLast, resume } from "./last";
import { lessons } from "./learned";
import { bottomNow, soundedNow, spreadFor, weightOn } from "./request";
import { type Rod, type Spread, selectedRod, spread, wantedSpeeds } from "./spread";
import { properties } from "./water";

/** The spread that was solved, and what came out; the two always belong together. */
export interface Solved {
  spread: Spread;
  rods: RodAnswer[];
  /** The depth of the middle of the wanted band. */
  aim: number;
  /** It was answered before this start, ms since 1970; a new answer is on its way. */
  asOf?: number;
}

export const solved = signal<Solved | undefined>(undefined);
export const thumb = signal<ThumbAnswer | undefined>(undefined);

/** Why the last change was not taken; gone with the next one. */
export const complaint = signal<Problem | undefined>(undefined);

export const selected = computed(() => selectedRod(spread.value));
export const selectedId = computed(() => selected.value?.id);

/** The answer for a rod, if the spread that was solved has it. */
export function answerFor(of: Solved | undefined, rod: Rod): RodAnswer | undefined {
  return of?.rods[of.spread.rods.findIndex((r) => r.id === rod.id)];
}

/** A plan holds for the bottom, the band and the care that it was made for; the speed wavers by itself. */
function unplanned(before: Spread, now: Spread): Spread {
  const same =
    now.bottom === before.bottom &&
    now.caution === before.caution &&
    now.wanted.low === before.wanted.low &&
    now.wanted.high === before.wanted.high;
  // Rods that have come with this very change, as by an undo, are as they were.
  if (same || now.rods !== before.rods || now.rods.every((rod) => !rod.planned)) return now;
  return { ...now, rods: now.rods.map((rod) => ({ ...rod, planned: null })) };
}

/** Shows a change of the spread and has it kept and solved. Rods that are set are in the water. */
export function change(patch: Partial<Spread>): void {
  batch(() => {
    complaint.value = undefined;
    spread.set(unplanned(spread.value, { ...spread.value, ...(patch.rods && { allIn: false }), ...patch }));
  });
}

/** The rod is not as planned any more. */
export function changeRod(id: string, patch: Partial<Rod>): void {
  change({
    rods: spread.value.rods.map((rod) => (rod.id === id ? { ...rod, planned: null, ...patch } : rod)),
  });
}

/** As change, with the way back on offer. */
export function changeUndoably(what: string, patch: Partial<Spread>): void {
  const before = spread.value;
  change(patch);
  offerUndo(what, () => change(before));
}

export const select = (id: string): void => change({ selected: id });

/** Solves whatever is shown, now and after every change. Returns the way to stop it. */
export function keepSolving(): () => void {
  if (complete(gear.value)) solved.value ??= resume(gear.value, spread.value);
  keepLast(
    () => solved.value,
    () => gear.signal.peek(),
  );
  return effect(() => {
    const tried = spread.value;
    desk.restarts.value;
    doubtNow.value;
    soundedNow.value;
    properties.value;
    lessons.signal.value;
    wantedSpeeds.value;
    if (complete(gear.value) && tried.rods.length > 0) untracked(() => solve(tried));
  });
}

const answers = new Answers((request) => desk.newest("spread", request));
/** Counts what was asked for; what was answered last. */
let asked = 0;
let told = 0;

async function solve(tried: Spread): Promise<void> {
  const weights = tried.rods.map((rod) => ({ lineOut: rod.lineOut, weight: weightOn(gear.value, rod) }));
  const turn = ++asked;
  try {
    const answer = await answers.ask({
      ...spreadFor(gear.value, tried, properties.value, doubtNow.value),
      ...bottomNow(tried),
    });
    // What needed no asking was there before what was still on its way.
    if (!answer || turn < told) return;
    told = turn;
    const off = answer.rods.find((rod) => rod.trouble?.code === "range")?.trouble;
    if (off && takeBack(tried, off)) return;
    solved.value = { spread: tried, rods: answer.rods, aim: answer.aim };
    const rules = await desk.newest("thumb", { rods: weights });
    if (rules) thumb.value = rules;
  } catch (fault) {
    if (fault instanceof Refused) takeBack(tried, fault.problems[0]);
    else if (!(fault instanceof Died)) throw fault;
  }
}

/** Puts the last spread that could be solved in the place of one that could not. False: there is none. */
function takeBack(tried: Spread, why: Problem | undefined): boolean {
  if (spread.value !== tried) return true;
  const good = solved.value?.spread;
  batch(() => {
    if (good && good !== tried) spread.set(good);
    complaint.value = why;
  });
  return good !== undefined && good !== tried;
}
