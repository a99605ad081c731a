/** What the plan of the spread is asked, and how it is taken over. */
import { limits, type Query, type Setting, type Stock } from "../../base/desk/types/plan.gen";
import { units } from "../../base/units/settings";
import { coarse } from "../../base/units/show";
import { inSi } from "../../base/units/units";
import type { Gear } from "../gear/gear";
import type { Doubts } from "../spread/doubt";
import { bottomNow, rodFor, seaFor, wantedFor } from "../spread/request";
import type { Rod, Spread } from "../spread/spread";
import { properties } from "../spread/water";

export const queryFor = (gear: Gear, now: Spread, doubt: Doubts, people: number): Query => ({
  sea: seaFor(now, properties.value),
  wanted: wantedFor(now),
  doubt,
  ...bottomNow(now),
  rods: now.rods.map((rod) => rodFor(gear, { ...rod, drail: 0 })),
  drails: stockOf(gear),
  // The marks by which line is called out.
  mark: coarse[units().line] * inSi[units().line],
  people,
});

/** Drails aboard by mass, as many kinds as the desk takes. */
export function stockOf(gear: Gear): Stock[] {
  const stock: Stock[] = [];
  for (const { mass, number } of gear.drails) {
    const same = stock.find((one) => Math.abs(one.mass - mass) < 1e-6);
    if (same) same.number += Math.round(number);
    else stock.push({ mass, number: Math.round(number) });
  }
  return stock
    .filter(({ number }) => number > 0)
    .sort((a, b) => a.mass - b.mass)
    .slice(0, limits.Query.drails.most)
    .map(({ mass, number }) => ({ mass, number: Math.min(number, limits.Stock.number.max) }));
}

/** The spread as planned, and for what chances: rods that nobody can tend are taken in, those without a proposal stay as they are. */
export function planned(settings: Setting[], now: Spread): Rod[] {
  return now.rods.flatMap((rod, i) => {
    const setting = settings[i];
    if (!setting || setting.trouble) return [rod];
    if (setting.aboard) return [];
    const { drail, lineOut, odds } = setting;
    return [{ ...rod, drail, lineOut, planned: { inBand: odds.inBand, touch: odds.touch } }];
  });
}
