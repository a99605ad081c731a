/** The water at a place and a time, as the tables predict it, and which place is meant. */
import { Died, desk, Refused } from "../../base/desk/desk";
import type { Hour } from "../../base/desk/types/day.gen";
import type { Place } from "../../base/desk/types/tide.gen";
import { lastFix } from "../../base/position/position";
import { Kept } from "../../base/store/kept";
import { number, orNone, record, words } from "../../base/store/shape";

const radians = Math.PI / 180;

/** The ground that predictions are for: stations chosen there stay with it. Empty ids: the nearest. */
export interface Ground {
  lat: number;
  lon: number;
  tide: string;
  stream: string;
  /** Depth of water on the chart, m, typed once; 0: not told. And where that was. */
  chart: number;
  chartLat: number;
  chartLon: number;
  /** Track wanted there, rad from true north; null: not told. */
  track: number | null;
}

const uncharted = { chart: 0, chartLat: 0, chartLon: 0 };
/** ° of latitude or longitude, a mile or so: farther off the depth typed says nothing. A judgement. */
const sameGround = 0.02;

export const ground = new Kept<Ground | null>(
  "tide ground",
  orNone(
    record<Ground>(
      {
        lat: number,
        lon: number,
        tide: words,
        stream: words,
        chart: number,
        chartLat: number,
        chartLon: number,
        track: orNone(number),
      },
      { ...uncharted, track: null },
    ),
  ),
  null,
);

export const placeOf = ({ lat, lon }: { lat: number; lon: number }): Place => ({
  lat: lat * radians,
  lon: lon * radians,
});

/** Where predictions are wanted: where the phone is, or the ground that was kept last. */
export const here = (): { lat: number; lon: number } | undefined =>
  lastFix.value?.fix ?? ground.value ?? undefined;

/** Keeps the place of now, so that the next day can be planned at the dock without a fix. */
export function keepGround(change: Partial<Ground>): void {
  const at = here();
  if (!at) return;
  const first = { lat: at.lat, lon: at.lon, tide: "", stream: "", ...uncharted, track: null };
  ground.set({ ...first, ...ground.value, ...change });
}

/** The depth on the chart where the boat is; 0: not told, or of another ground. */
export function chartHere(): number {
  const at = here();
  const { chart, chartLat, chartLon } = ground.signal.value ?? uncharted;
  if (!at || Math.abs(at.lat - chartLat) > sameGround || Math.abs(at.lon - chartLon) > sameGround) return 0;
  return chart;
}

export function setChart(chart: number): void {
  const at = here();
  if (at) keepGround({ chart, chartLat: at.lat, chartLon: at.lon });
}

/** The stations chosen for the ground. */
export const stationsChosen = (): { tide: string; stream: string } => {
  const { tide = "", stream = "" } = ground.signal.value ?? {};
  return { tide, stream };
};

/** The hours of moments, in their order, by the stations nearest to each or others; undefined while there are no tables. */
export async function hoursOf(
  moments: { at: number; lat: number; lon: number; tide?: string; stream?: string }[],
): Promise<Hour[] | undefined> {
  try {
    const asked = moments.map(({ at, lat, lon, ...stations }) => ({
      time: at / 1000,
      place: placeOf({ lat, lon }),
      ...stations,
    }));
    return (await desk.ask("moments", { moments: asked })).hours;
  } catch (fault) {
    if (fault instanceof Refused || fault instanceof Died) return undefined;
    throw fault;
  }
}
