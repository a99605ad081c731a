/** The hookups noted about a place by the hour of the tide: counted, and not judged. */
import type { Turn } from "../../base/desk/types/tide.gen";
import { number } from "../entry/fold";
import { LatestRecords } from "../log/beside/latest";
import { hoursOf } from "../tide/water";
import { timeOf } from "./words";

/** ° of latitude and longitude, some 15 miles: farther off the tide is another. A judgement. */
const near = 0.25;
/** The desk takes no more at once: the latest. */
const most = 100;

/** So many hookups in an hour after high or low water, the first being 0. */
export interface TideHour {
  turn: Turn;
  hour: number;
  count: number;
}

const marks = new LatestRecords(["mark"]);

/** The latest about a place; of all trips, where not enough of the last ones are. */
async function marksNear(at: { lat: number; lon: number }) {
  for (let count = 4 * most; ; count *= 4) {
    const found = await marks.first(count);
    const near = (found?.records ?? []).flatMap((record) => {
      const [lat, lon] = [number(record, "lat"), number(record, "lon")];
      return lat !== undefined && lon !== undefined && isNear({ lat, lon }, at)
        ? [{ at: timeOf(record), lat, lon }]
        : [];
    });
    if (!found?.more || near.length >= most) return near.sort((a, b) => b.at - a.at).slice(0, most);
  }
}

const isNear = (one: { lat: number; lon: number }, at: { lat: number; lon: number }): boolean =>
  Math.abs(one.lat - at.lat) < near && Math.abs(one.lon - at.lon) < near;

/** From high water on; none where there are no hookups, or no tables. */
export async function hookupsByTide(at: { lat: number; lon: number }): Promise<TideHour[]> {
  const marks = await marksNear(at);
  const all = new Map<string, TideHour>();
  for (const { tide } of (marks.length > 0 && (await hoursOf(marks))) || []) {
    if (!tide) continue;
    const hour = Math.floor(tide.since / 3600);
    const key = `${tide.last} ${hour}`;
    all.set(key, { turn: tide.last, hour, count: (all.get(key)?.count ?? 0) + 1 });
  }
  return [...all.values()].sort((a, b) => a.turn.localeCompare(b.turn) || a.hour - b.hour);
}
