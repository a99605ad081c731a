/** The float plan: what somebody ashore has to know, and when that person calls for help. */

import { Kept } from "../../base/store/kept";
import { number, record, words } from "../../base/store/shape";
import { text } from "../../base/text/text";
import { amount } from "../../base/units/show";
import { clock, day } from "../../base/units/when";
import type { Boat } from "./boat";
import { looksOf } from "./mayday";

export interface FloatPlan {
  from: string;
  /** Empty: as the trip says, or the boat's usual ground. */
  ground: string;
  /** Empty: as the trip says. */
  people: string;
  /** ms since 1970; 0: not told. */
  leaving: number;
  back: number;
  alarm: number;
  car: string;
  rescue: string;
  more: string;
  /** When any of it was typed last, ms since 1970. */
  at: number;
}

export const emptyFloatPlan: FloatPlan = {
  from: "",
  ground: "",
  people: "",
  leaving: 0,
  back: 0,
  alarm: 0,
  car: "",
  rescue: "",
  more: "",
  at: 0,
};

export const floatPlan = new Kept<FloatPlan>(
  "plan",
  record<FloatPlan>({
    from: words,
    ground: words,
    people: words,
    leaving: number,
    back: number,
    alarm: number,
    car: words,
    rescue: words,
    more: words,
    at: number,
  }),
  emptyFloatPlan,
);

/** So many ms after its last hour a plan is of another day. */
const lasting = 18 * 3600_000;

/** The plan as it holds now: who, where and when are of one outing only, and never left over for the next. */
export function floatPlanAt(now: number): FloatPlan {
  const { leaving, back, alarm, at } = floatPlan.value;
  const over = now - Math.max(leaving, back, alarm, at) > lasting;
  return over
    ? { ...floatPlan.value, ground: "", people: "", leaving: 0, back: 0, alarm: 0, more: "" }
    : floatPlan.value;
}

/** A plan as it is told, with what trip and boat add. */
export interface Filled extends FloatPlan {
  boat: Boat;
  count: number;
  /** Depth wanted, m; 0: not told. */
  depth: number;
}

const when = (ms: number): string => `${day(ms)}, ${clock(ms)}`;

/** The plan in words, a line each; what is not told is left out, save what the person ashore cannot do without. */
export function floatPlanText(filled: Filled): string {
  const t = text.crew.floatplan;
  const { boat, count } = filled;
  const known = (name: string, said: string) => (said ? [`${name}: ${said}`] : []);
  const looks = [boat.registration, boat.callSign, boat.mmsi && `MMSI ${boat.mmsi}`, looksOf(boat)]
    .filter(Boolean)
    .join(", ");
  return [
    t.sheet.title,
    `${t.sheet.boat}: ${[boat.name || t.sheet.unknown, looks].filter(Boolean).join(", ")}`,
    ...known(t.sheet.phone, boat.phone),
    `${t.sheet.aboard(count > 0 ? String(count) : t.sheet.unknown)}: ${filled.people || t.sheet.unknown}`,
    ...known(t.from, filled.from),
    `${t.ground}: ${filled.ground || t.sheet.unknown}`,
    ...known(t.sheet.wanted, filled.depth > 0 ? t.sheet.depth(amount("depth", filled.depth)) : ""),
    ...known(t.leaving, filled.leaving > 0 ? when(filled.leaving) : ""),
    `${t.back}: ${filled.back > 0 ? when(filled.back) : t.sheet.unknown}`,
    `${t.sheet.safety}: ${boat.safety || t.sheet.unknown}`,
    ...known(t.car, filled.car),
    ...known(t.more, filled.more),
    "",
    t.sheet.todo(filled.alarm > 0 ? when(filled.alarm) : t.sheet.noTime),
    t.sheet.call(boat.phone),
    t.sheet.look(filled.car),
    t.sheet.rescue(filled.rescue),
    t.sheet.stay,
    t.sheet.back,
  ].join("\n");
}

/** Whether help would be called before the boat is due. */
export const tooEarly = ({ back, alarm }: FloatPlan): boolean => back > 0 && alarm > 0 && alarm <= back;

/** A moment as the phone's own picker of date and time has it, in local time. */
export function toPicker(ms: number): string {
  if (ms === 0) return "";
  const at = new Date(ms);
  return new Date(ms - at.getTimezoneOffset() * 60_000).toISOString().slice(0, 16);
}

/** 0 where nothing is picked. */
export const fromPicker = (picked: string): number => {
  const ms = new Date(picked).getTime();
  return Number.isFinite(ms) ? ms : 0;
};
