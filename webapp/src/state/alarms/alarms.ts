/** What must reach somebody who does not look: sounded, felt and said, again and again until it is over or put off. */
import { computed, effect, signal, untracked } from "@preact/signals";
import { Kept } from "../../base/store/kept";
import { flag, record } from "../../base/store/shape";
import { text } from "../../base/text/text";
import { depthHeard, second } from "../instruments/heard";
import { lost, taken } from "../instruments/taken";
import { utter, voices } from "../pace/aloud";
import { holds } from "../pace/motion";
import { pace, wanted } from "../pace/pace";
import { wheelNow } from "../pace/wheel";
import { looked, warning } from "../rise/watch";
import { spread } from "../spread/spread";
import { play, type Tune } from "./sound";

/** In the order in which they matter. */
export const kinds = ["rise", "bottom", "lost", "wheel", "speed"] as const;
export type Kind = (typeof kinds)[number];

const tunes: { [K in Kind]: Tune } = {
  rise: [
    [660, 160],
    [880, 160],
    [1175, 300],
    [0, 120],
    [660, 160],
    [880, 160],
    [1175, 300],
  ],
  bottom: [
    [440, 250],
    [330, 250],
    [440, 250],
    [330, 400],
  ],
  lost: [
    [880, 120],
    [0, 120],
    [880, 120],
    [0, 120],
    [440, 500],
  ],
  wheel: [
    [587, 200],
    [0, 150],
    [587, 200],
  ],
  speed: [
    [740, 180],
    [0, 100],
    [740, 180],
  ],
};

/** Felt in the same rhythm. */
const felt = (tune: Tune): number[] => tune.map(([, ms]) => ms);

export interface AlarmSettings {
  sound: boolean;
  /** Said aloud as well. */
  voice: boolean;
  /** That the speed is outside the wanted for long. */
  speed: boolean;
}

export const alarmSettings = new Kept<AlarmSettings>(
  "alarms",
  record<AlarmSettings>({ sound: flag, voice: flag, speed: flag }),
  { sound: true, voice: true, speed: true },
);

export const setAlarms = (patch: Partial<AlarmSettings>): void =>
  alarmSettings.set({ ...alarmSettings.value, ...patch });

/** The speed may be outside for so long, ms. */
const tolerated = 60_000;
/** Sounded again after so many ms; said again after so many. */
const again = 7000;
const saidAgain = 30_000;
/** Put off for so long, ms. */
export const putOff = 600_000;

/** Until when each is put off, ms of the running clock. */
const silent = signal<{ [K in Kind]?: number }>({});

export const isSilent = (kind: Kind): boolean => {
  second.value;
  return (silent.value[kind] ?? Number.NEGATIVE_INFINITY) > performance.now();
};

export const silence = (kind: Kind): void => {
  silent.value = { ...silent.value, [kind]: performance.now() + putOff };
};

/** Since when the speed is outside. */
const outside = signal<number | undefined>(undefined);

/** Rods whose lure is likelier on the bottom than not, by the water's depth where it is; by their number on screen. */
export const onBottom = computed<number[]>(() => {
  const now = looked.value;
  if (!now || !depthHeard.value) return [];
  return now.answer.rods.flatMap(({ trouble, over, depth }, i) =>
    !trouble && over > 0 && depth.mid >= over ? [i + 1] : [],
  );
});

export const tooLongOutside = computed<"fast" | "slow" | undefined>(() => {
  second.value;
  const since = outside.value;
  const now = pace.value;
  const band = wanted.value;
  if (since === undefined || !now || !band || performance.now() - since < tolerated) return undefined;
  return now.water.mid > band.high ? "fast" : "slow";
});

let before: Kind[] = [];

/** What is so now, the weightiest first; the same list until it is another. */
export const alarms = computed<Kind[]>(() => {
  const so: { [K in Kind]: boolean } = {
    rise: warning.value !== undefined,
    bottom: onBottom.value.length > 0,
    lost: lost.value.length > 0,
    wheel: wheelNow.value?.state === "stands" || wheelNow.value?.state === "drags",
    speed: alarmSettings.value.speed && tooLongOutside.value !== undefined,
  };
  const now = kinds.filter((kind) => so[kind]);
  if (now.join() !== before.join()) before = now;
  return before;
});

/** How one sounds, felt and said too where that is wanted. */
export function sound(kind: Kind, aloud = alarmSettings.value.voice): boolean {
  const tune = tunes[kind];
  navigator.vibrate?.(felt(tune));
  const voice = voices.value[0];
  if (aloud && voice && !speechSynthesis.speaking) utter(text.alarms.said[kind], voice);
  return play(tune);
}

export function keepAlarming(): void {
  effect(() => {
    const now = pace.value;
    const band = wanted.value;
    second.value;
    const off =
      now !== undefined &&
      band !== undefined &&
      taken.value.speed &&
      !spread.value.allIn &&
      now.currentKnown &&
      holds(now.motion) &&
      (now.water.low > band.high || now.water.high < band.low);
    untracked(() => (outside.value = off ? (outside.value ?? performance.now()) : undefined));
  });
  const sounded = new Map<Kind, number>();
  const said = new Map<Kind, number>();
  const ring = () => {
    const [first] = alarms.value.filter((kind) => !isSilent(kind));
    for (const kind of kinds) if (!alarms.value.includes(kind)) sounded.delete(kind);
    if (!first || !alarmSettings.value.sound) return;
    const now = performance.now();
    if (now - (sounded.get(first) ?? Number.NEGATIVE_INFINITY) < again) return;
    sounded.set(first, now);
    const aloud =
      alarmSettings.value.voice && now - (said.get(first) ?? Number.NEGATIVE_INFINITY) >= saidAgain;
    if (aloud) said.set(first, now);
    sound(first, aloud);
  };
  effect(() => {
    const any = alarms.value.length > 0;
    silent.value;
    alarmSettings.signal.value;
    if (!any) {
      untracked(ring);
      return;
    }
    untracked(ring);
    const timer = setInterval(ring, 1000);
    return () => clearInterval(timer);
  });
}
