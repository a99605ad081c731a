/** Which place of somebody overboard nobody is led to, nor tells by radio, unasked. */
import { boatTime } from "../../base/phone/clock";
import { type Fix, lastFix, position } from "../../base/position/position";
import { isGuests } from "../crew/role";
import { type Folded, number } from "../entry/fold";
import { isShutOut } from "../log/whose";

/**
 * So far from here, m, a place that a guest noted is doubted, and by so much more as the boat may have gone since, m/s, for so
 * long, s: longer ago anybody can say that it was. Judgements.
 */
const far = 3 * 1852;
const fastest = 20;
const longest = 2 * 3600;

/** Why a guest's case is doubted: its phone was shut out, or its place is so far from this phone's, m. */
export type Doubt = "shut out" | number;

/** Undefined where it is to be gone by, as all of the crew's and this phone's own is. */
export function doubtOf(record: Folded): Doubt | undefined {
  const [first] = record.entries;
  if (!first || first.own || !isGuests(record)) return undefined;
  if (isShutOut(first)) return "shut out";
  const here: Partial<Fix> = lastFix.value ? position() : {};
  const off = between(here.lat, here.lon, number(record, "lat"), number(record, "lon"));
  const since = Math.max(boatTime(Date.now()) - (number(record, "went") ?? Number.NaN), 0) / 1000 || 0;
  return off > far + fastest * Math.min(since, longest) ? off : undefined;
}

/** The mean radius of the Earth, m: IUGG, from memory. */
const radius = 6_371_008.8;

/** How far it is from one place to another, m, on a sphere; NaN where either is not known. Degrees. */
function between(lat = Number.NaN, lon = Number.NaN, lat2 = Number.NaN, lon2 = Number.NaN): number {
  const [from, to, turned] = [lat, lat2, lon2 - lon].map((degrees) => (degrees * Math.PI) / 180) as [
    number,
    number,
    number,
  ];
  const half = Math.sin((to - from) / 2) ** 2 + Math.cos(from) * Math.cos(to) * Math.sin(turned / 2) ** 2;
  return 2 * radius * Math.asin(Math.sqrt(Math.min(1, half)));
}
