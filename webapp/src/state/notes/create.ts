/** What is noted with one tap: saved at once, with position and spread as they are, and asked about after. */

import { position, withNextFix } from "../../base/position/position";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import type { Touching } from "../calibrate/observe";
import { mayChange } from "../crew/role";
import type { Folded } from "../entry/fold";
import { gear } from "../gear/gear";
import type { Along } from "../log/disk/book";
import { amend, note, noteOfThen, strike } from "../log/saying/say";
import { areBegun, type Rod, spread } from "../spread/spread";
import { askedNow, rodNow, type SpreadThen, spreadNow } from "./snapshot";
import { kindName } from "./words";

const t = text.notes;

/** Notes something of the running trip, where the boat is. */
export const create = (kind: string, set: object, along: Along = {}): Folded =>
  note(kind, { ...position(), ...set }, along);

/** Offers to strike out what was just noted; it stays legible, and can be struck out later too. */
export function offerUndoOf(record: Folded, more?: () => string | undefined, undone?: () => void): void {
  const undo = () => {
    strike(record);
    undone?.();
  };
  offerUndo(t.noted(kindName(record.kind)), undo, more);
}

/**
 * The spread as it is, where there is one: without rods where all lines are in. A guest, who lets out no lines, has seldom
 * set any: those of the start are nobody's.
 */
const withSpread = (allIn = spread.value.allIn): { spread?: SpreadThen } => {
  const now = spreadNow();
  if (!now || (!mayChange() && areBegun(spread.value, gear.value))) return {};
  return { spread: allIn ? { ...now, rods: [] } : now };
};

/** Later than this after the tap neither place nor spread are known to be those of the tap, ms: a judgement. */
const late = 60_000;

/** A place that the receiver tells so much later is near enough to that of a hookup, ms: a judgement; 3 kn make 15 m of it. */
const soon = 10_000;

/** A hookup; then: when it was tapped. */
export function createMark(then = Date.now()): Folded {
  if (Math.abs(Date.now() - then) > late) return noteOfThen("mark", {}, then);
  const here = position();
  const record = note("mark", { ...here, ...withSpread() }, {}, then);
  // Said later, and it shows when: the app may have come up just now.
  if (here.lat === undefined) withNextFix(soon, () => amend(record, position()));
  return record;
}

/**
 * A touch of this rod's lure, or that it ran clear, as it is set on Lines; with all that calibration asks. The boat is ahead
 * of the lure: over is how deep the water is there, where the instruments have told it.
 */
export function createTouch(rod: Rod, kind: Touching = "touch", over?: number): Folded {
  const { speed, rods } = spread.value;
  const bottom = over ?? spread.value.bottom;
  const { lineOut, drail } = rod;
  const name = t.oneRod(rods.findIndex((one) => one.id === rod.id) + 1, rodNow(rod).place);
  const { begun, ...known } = askedNow(name, rod);
  // A depth that the instruments told is nobody's first guess.
  const asked = { ...known, ...(begun && over === undefined && { begun }) };
  const { dropper } = asked.rod.rig;
  const weights = { drail, ...(dropper && { sinker: dropper.sinker }) };
  return create(kind, { rod: name, bottom, lineOut, ...weights, speed, ...withSpread(), asked });
}

/** The lines as they are, or as they were then: all in, or not. */
export const createLines = (allIn?: boolean, then?: number): Folded =>
  note("lines", { ...position(), ...withSpread(allIn) }, {}, then);

/**
 * A pass on the course that the boat makes now, over so deep water. What is not told is as the receiver and Lines have it; a
 * course that nobody knows is left out, since 0 is north.
 */
export function createPass(course?: number, depth?: number): Folded {
  const heading = course ?? position().cog;
  const bottom = depth ?? spreadNow()?.bottom;
  return create("pass", {
    ...(bottom !== undefined && { bottom }),
    ...(heading !== undefined && { heading }),
  });
}

/** Says something of a record, or begins one with it. */
export function createOrAmend(kind: string, record: Folded | undefined, set: object): Folded {
  if (!record) return create(kind, set);
  amend(record, { ...set });
  return record;
}
