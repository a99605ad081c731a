/** What was sounded last and Lines does not go by: a rise that was missed leaves its trace, until Bottom is set. */
import { computed, effect, untracked } from "@preact/signals";
import { Kept } from "../../base/store/kept";
import { number } from "../../base/store/shape";
import { depthHeard } from "../instruments/heard";
import { spread } from "../spread/spread";
import { readNow, type Sounding, soundings } from "./soundings";
import { apart } from "./warning";
import { looked } from "./watch";

/** When Bottom was set last, or left as it is, ms: what was read before is answered. */
export const bottomSet = new Kept("bottom-set", number, 0);

const last = (): Sounding | undefined => readNow(Date.now())[0];

/** How deep the water under the boat was read since Bottom was set, m; undefined: not since. */
export function soundedSince(): number | undefined {
  const read = last();
  const set = bottomSet.signal.value;
  // A clock that was set back since knows of none.
  return read && (read.at >= set || set > Date.now()) ? read.depth : undefined;
}

/** The depth that every lure has come to, m, while Bottom on Lines is another; undefined: there is none. */
export const behind = computed<number | undefined>(() => {
  const now = looked.value;
  const [typed] = soundings.signal.value;
  // What the instruments tell is offered by itself.
  if (!now || !typed || depthHeard.value || now.at < typed.at) return undefined;
  const depth = soundedSince();
  if (depth === undefined || Math.abs(depth - spread.value.bottom) < apart) return undefined;
  return now.answer.rods.every(({ verdict }) => verdict === "not sounded") ? depth : undefined;
});

/** Bottom stays as it is. */
export const leaveBottom = (): void => bottomSet.set(Date.now());

/** Bottom that is set, by whom or what ever, is set in view of what was read till then. */
export function keepBehind(): void {
  let was = spread.value.bottom;
  effect(() => {
    const { bottom } = spread.value;
    if (bottom === was) return;
    was = bottom;
    untracked(leaveBottom);
  });
}
