/** What the desk is asked about a case, and how old what it goes by is. */
import { type Fix, limits, type Query } from "../../base/desk/types/overboard.gen";
import { since } from "../../base/position/moment";
import { fleeting, lastFix, type Taken } from "../../base/position/position";
import { type Folded, number } from "../entry/fold";
import { currentNow } from "../pace/current/found";
import { predictedNow } from "../pace/current/predicted";
import { sinceWent, wentAt } from "./overboard";

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

const clamped = (value: number, { min, max }: { min: number; max: number }): number =>
  Math.min(Math.max(value, min), max);

interface Seen {
  lat: number;
  lon: number;
  accuracy: number | undefined;
  sog: number | undefined;
  cog: number | undefined;
  /** s */
  age: number;
}

const fixOf = ({ lat, lon, accuracy, sog, cog, age }: Seen): Fix => ({
  lat: radians(lat),
  lon: radians(lon),
  accuracy: clamped(accuracy ?? 0, limits.Fix.accuracy),
  age: clamped(age, limits.Fix.age),
  ...(sog !== undefined &&
    (cog !== undefined || sog === 0) && {
      moving: { speed: clamped(sog, limits.Velocity.speed), course: cog ?? 0 },
    }),
});

/** Where the boat was; undefined where no fix was had. */
export function markOf(record: Folded): Fix | undefined {
  const [lat, lon, accuracy, sog, cog, fixed] = ["lat", "lon", "accuracy", "sog", "cog", "fixed"].map(
    (name) => number(record, name),
  );
  if (lat === undefined || lon === undefined || Math.abs(lat) > 90 || Math.abs(lon) > 180) return undefined;
  const age = fixed === undefined ? 0 : (wentAt(record) - fixed) / 1000;
  return fixOf({ lat, lon, accuracy, sog, cog, age });
}

/** Where the boat is, by the last fix however old. */
export function hereOf({ fix, at }: Taken): Fix {
  const age = since(at);
  const { sog, cog, ...place } = fix;
  const of = age <= fleeting ? { sog, cog } : { sog: undefined, cog: undefined };
  return fixOf({ ...place, ...of, age: age / 1000 });
}

/** Undefined as long as either place is not known. */
export function wayBack(record: Folded): Query | undefined {
  const mark = markOf(record);
  const here = lastFix.value && hereOf(lastFix.value);
  if (!mark || !here) return undefined;
  const current = currentNow();
  const predicted = predictedNow();
  return {
    mark,
    here,
    since: clamped(Math.round(sinceWent(record) / 1000), limits.Query.since),
    ...(current && { current }),
    ...(predicted && { predicted }),
  };
}
