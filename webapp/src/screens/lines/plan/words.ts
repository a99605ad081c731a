/** For which speed a plan is, and what it gives up against the rods as they are set. */
import type { Setting } from "../../../base/desk/types/plan.gen";
import type { RodAnswer } from "../../../base/desk/types/towline.gen";
import { text } from "../../../base/text/text";
import { about, amount } from "../../../base/units/show";
import { oddsWords } from "../verdict";

const t = text.plan;

/** Nearer than this, m/s, two speeds are one. */
const same = 1e-4;

const goesAt = (now: number, planned: number): boolean => Math.abs(planned - now) < same;

/** The speed of Lines as it is written there, or the wanted one that the plan is for. */
export const speedWords = (now: number, planned = now): string =>
  goesAt(now, planned) ? amount("speed", now) : about("speed", planned, 0.1);

/** That she has to go at another speed before it holds; undefined where she goes at it. */
export const first = (now: number, planned: number): string | undefined =>
  goesAt(now, planned) ? undefined : t.goFirst(amount("speed", now), speedWords(now, planned));

/** Smaller losses are not worth a word. */
const told = 0.05;

/** What a rod does as it is set, where that is in the band more often than it would be as planned. */
export const lessWords = ({ odds }: Setting, now: RodAnswer | undefined): string | undefined =>
  now && !now.trouble && now.odds.inBand > odds.inBand + told ? t.asSet(oddsWords(now)) : undefined;
