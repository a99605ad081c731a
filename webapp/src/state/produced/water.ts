/** The light and the hour of the tide through trips, by the tables; untold where there are none, or no place. */
import { Died, desk, Refused } from "../../base/desk/desk";
import type { Event } from "../../base/desk/types/light.gen";
import { hoursOf, placeOf } from "../tide/water";
import type { During, Effort } from "./effort";
import { levelOfTide } from "./factors";

export type Light = "dawn" | "day" | "dusk" | "night";

const hour = 3600_000;
const halfHour = hour / 2;
/** So long the sun is low after it rises, and before it sets. A judgement: fish are said to bite in it (common practice, no source). */
const low = 1.5 * hour;
/** The desk takes no more at once. */
const most = 100;

/** From when until when lines were out. */
export function spanOf({ outs }: Effort): { from: number; to: number } | undefined {
  if (outs.length === 0) return undefined;
  return { from: Math.min(...outs.map(({ from }) => from)), to: Math.max(...outs.map(({ to }) => to)) };
}

const nearest = ({ places }: Effort, at: number) =>
  places.reduce<Effort["places"][number] | undefined>(
    (best, one) => (!best || Math.abs(one.at - at) < Math.abs(best.at - at) ? one : best),
    undefined,
  );

/** By the changes of a day about a moment: what the light is then. */
export function lightAt(events: Event[], at: number): Light {
  const last = (change: string) =>
    Math.max(
      ...events
        .filter((one) => one.change === change && one.time * 1000 <= at)
        .map(({ time }) => time * 1000),
    );
  const next = (change: string) =>
    Math.min(
      ...events.filter((one) => one.change === change && one.time * 1000 > at).map(({ time }) => time * 1000),
    );
  const [rose, sets] = [last("sunrise"), next("sunset")];
  if (rose > last("sunset")) return at - rose < low ? "dawn" : sets - at < low ? "dusk" : "day";
  if (last("nautical dawn") > last("nautical dusk") && next("sunrise") < next("nautical dusk")) return "dawn";
  if (last("sunset") > last("nautical dusk") && Number.isFinite(last("sunset"))) return "dusk";
  return "night";
}

export async function lightOf(effort: Effort): Promise<During<Light>[]> {
  const span = spanOf(effort);
  const place = span && nearest(effort, span.from);
  if (!span || !place) return [];
  try {
    const [from, until] = [span.from - 24 * hour, span.to + 24 * hour].map((ms) => ms / 1000) as [
      number,
      number,
    ];
    const { events } = await desk.ask("light", { place: placeOf(place), from, until });
    const all: During<Light>[] = [];
    for (let at = span.from; at < span.to; at += hour / 12) {
      const is = lightAt(events, at + hour / 24);
      const before = all.at(-1);
      const to = Math.min(span.to, at + hour / 12);
      if (before?.is === is) before.to = to;
      else all.push({ from: at, to, is });
    }
    return all;
  } catch (fault) {
    if (fault instanceof Refused || fault instanceof Died) return [];
    throw fault;
  }
}

/** Of all trips at once, half-hour by half-hour. */
export async function tidesOf(efforts: Effort[]): Promise<During<string>[][]> {
  const asked = efforts.flatMap((effort, trip) => {
    const span = spanOf(effort);
    if (!span) return [];
    const moments: { trip: number; from: number; at: number; lat: number; lon: number }[] = [];
    for (let from = span.from; from < span.to; from += halfHour) {
      const place = nearest(effort, from);
      if (place) moments.push({ trip, from, at: from + halfHour / 2, lat: place.lat, lon: place.lon });
    }
    return moments;
  });
  const all: During<string>[][] = efforts.map(() => []);
  for (let i = 0; i < asked.length; i += most) {
    const some = asked.slice(i, i + most);
    const hours = await hoursOf(some.map(({ at, lat, lon }) => ({ at, lat, lon })));
    hours?.forEach(({ tide }, j) => {
      const one = some[j];
      if (!one || !tide || (tide.last !== "high water" && tide.last !== "low water")) return;
      all[one.trip]?.push({
        from: one.from,
        to: one.from + halfHour,
        is: levelOfTide(tide.last, tide.since),
      });
    });
  }
  return all;
}
