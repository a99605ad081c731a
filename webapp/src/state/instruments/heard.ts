/**
 * What the boat's instruments say, as the boat's server hears it (server/sync/README.md). Nothing of it is believed for
 * longer than it holds, whatever becomes of the line to the server.
 */
import { computed, signal } from "@preact/signals";
import {
  all,
  flag,
  maybe,
  number,
  oneOf,
  record,
  type Shape,
  sound,
  wordsUpTo,
} from "../../base/store/shape";

export interface Value {
  /** SI, of angles radians, of temperatures °C. */
  value: number;
  /** s: how old it was when it was told, and for how long it holds. */
  age: number;
  holds: number;
  /** Who says so. */
  from: string;
  differs?: boolean | undefined;
  jumped?: boolean | undefined;
}

export interface Depth extends Value {
  /** Below what: the surface, where the server was told how deep the sounder is. */
  below: "surface" | "transducer" | "keel";
  state: "known" | "seeking" | "lost";
  /** m, what the sounder read last where that is not taken for the bottom. */
  echo?: number | undefined;
}

/** The quantities that are of use here. */
export const quantities = [
  "waterSpeed",
  "waterTemperature",
  "heading",
  "groundSpeed",
  "groundCourse",
] as const;
export type Name = (typeof quantities)[number];

export interface Heard {
  depth?: Depth | undefined;
  values: { [N in Name]?: Value | undefined };
  /** How far the boat has gone over ground, m, from wherever the server began to count; -1: it hears no speed over ground. */
  run: number;
  /** ms of the running clock, when it came. */
  at: number;
}

const value = {
  value: number,
  age: number,
  holds: number,
  from: wordsUpTo(400),
  differs: maybe(flag),
  jumped: maybe(flag),
};
const ofValue = record<Value>(value, { differs: undefined, jumped: undefined });
const ofDepth = record<Depth>(
  {
    ...value,
    below: oneOf("surface", "transducer", "keel"),
    state: oneOf("known", "seeking", "lost"),
    echo: maybe(number),
  },
  { differs: undefined, jumped: undefined, echo: undefined },
);
const none = { depth: undefined, run: 0 };
const ofValues = record<Heard["values"]>(
  Object.fromEntries(quantities.map((name) => [name, maybe(ofValue)])) as never,
  Object.fromEntries(quantities.map((name) => [name, undefined])),
);
const ofEvent = record<Omit<Heard, "at">>({ depth: maybe(ofDepth), values: ofValues, run: number }, none);

/** What the sounder read while nobody listened: how long ago, s, how deep, and how far the boat had gone, m. */
export interface Past {
  ages: number[];
  depths: number[];
  runs: number[];
}
const numbers = all(number, 2000);
const ofPast = record<Past>({ ages: numbers, depths: numbers, runs: numbers });

const read = <T>(shape: Shape<T>, text: unknown): T | undefined => {
  try {
    return sound(shape, JSON.parse(String(text)));
  } catch {
    return undefined;
  }
};

export const readEvent = (text: unknown): Heard | undefined => {
  const told = read(ofEvent, text);
  return told && { ...told, at: performance.now() };
};

export const readPast = (text: unknown): Past | undefined => {
  const past = read(ofPast, text);
  const length = past?.ages.length;
  return past && past.depths.length === length && past.runs.length === length ? past : undefined;
};

/** The newest, however old. */
export const heard = signal<Heard | undefined>(undefined);

/** Whether anything was heard since the app was started: for what need not look at every word. */
export const hears = computed(() => heard.value !== undefined);

/** Counts up every second from the newest on: what is old goes by itself. */
export const second = signal(0);

/** s since it was said. */
export const ageOf = ({ at }: Heard, { age }: Value): number =>
  age + Math.max(0, performance.now() - at) / 1000;

/** Of something that holds still; else undefined. */
function held<V extends Value>(of: (now: Heard) => V | undefined): V | undefined {
  second.value;
  const now = heard.value;
  const one = now && of(now);
  return now && one && ageOf(now, one) <= one.holds ? { ...one, age: ageOf(now, one) } : undefined;
}

/** The depth under the boat, while it is known. */
export const depthHeard = computed(() => {
  const depth = held(({ depth }) => depth);
  return depth?.state === "known" ? depth : undefined;
});

export const valueHeard = (name: Name): Value | undefined => held(({ values }) => values[name]);
