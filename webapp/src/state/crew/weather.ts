/** The skipper's own limits for wind, sea and sight, and today's forecast held against them: go or stay. */
import { computed } from "@preact/signals";
import { Kept } from "../../base/store/kept";
import { flag, number, record } from "../../base/store/shape";
import { boat, keptBoat, setBoat } from "./boat";

export interface Weather {
  /** m/s, with gusts; m; m. 0: not told. */
  wind: number;
  sea: number;
  sight: number;
}

export interface Forecast extends Weather {
  /** A warning for small craft is out. */
  warning: boolean;
  /** When it was looked up, ms since 1970. */
  at: number;
}

const unknown: Weather = { wind: 0, sea: 0, sight: 0 };

/** The limits go with the boat's particulars, to every phone aboard. */
export const limits = computed<Weather>(() => {
  const { mostWind, mostSea, leastSight } = boat.value;
  return { wind: mostWind, sea: mostSea, sight: leastSight };
});

const fields = { wind: "mostWind", sea: "mostSea", sight: "leastSight" } as const;

export const setLimit = (of: keyof Weather, value: number): void => setBoat({ [fields[of]]: value });

/** Where an app of before kept them, on one phone. */
export const formerLimits = new Kept<Weather>(
  "weather limits",
  record<Weather>({ wind: number, sea: number, sight: number }),
  unknown,
);

/** Takes over what such an app has kept, once. */
export function takeFormerLimits(): void {
  const former = formerLimits.value;
  const { mostWind, mostSea, leastSight } = keptBoat.value;
  if (!keptBoat.found.value || Object.values(former).every((value) => value === 0)) return;
  keptBoat.set({
    ...keptBoat.value,
    mostWind: mostWind || former.wind,
    mostSea: mostSea || former.sea,
    leastSight: leastSight || former.sight,
  });
  formerLimits.set(unknown);
}

export const forecast = new Kept<Forecast>(
  "forecast",
  record<Forecast>({ wind: number, sea: number, sight: number, warning: flag, at: number }),
  { ...unknown, warning: false, at: 0 },
);

/** A forecast is of one day, ms. */
const lasting = 12 * 3600_000;

export const forecastNow = computed<Forecast>(() =>
  Date.now() - forecast.value.at < lasting ? forecast.value : { ...unknown, warning: false, at: 0 },
);

export const setForecast = (patch: Partial<Forecast>): void =>
  forecast.set({ ...forecastNow.value, ...patch, at: Date.now() });

export type Beyond = keyof Weather | "warning";

/** What is beyond the limits, and which limits have nothing to be held against them. */
export const judged = computed<{ beyond: Beyond[]; open: (keyof Weather)[] }>(() => {
  const [most, now] = [limits.value, forecastNow.value];
  const set = (Object.keys(most) as (keyof Weather)[]).filter((name) => most[name] > 0);
  // What is set to nothing is not known: calm is told as a little.
  const open = set.filter((name) => now[name] === 0);
  const beyond: Beyond[] = set.filter((name) => {
    if (now[name] === 0) return false;
    return name === "sight" ? now[name] < most[name] : now[name] > most[name];
  });
  if (now.warning) beyond.push("warning");
  return { beyond, open };
});

export type Verdict = "go" | "stay" | "unknown";

/** Without limits nothing is judged: they are the skipper's own. */
export const verdict = computed<Verdict>(() => {
  const { beyond, open } = judged.value;
  const any = Object.values(limits.value).some((value) => value > 0);
  if (beyond.length > 0) return "stay";
  return any && open.length === 0 ? "go" : "unknown";
});
