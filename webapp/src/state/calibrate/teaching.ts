/** What somebody is about to teach and has not taught yet: kept with every change, as whatever is entered. */
import { limits as calibrate } from "../../base/desk/types/calibrate.gen";
import { limits } from "../../base/desk/types/towline.gen";
import { Kept } from "../../base/store/kept";
import { number, oneOf, orNone, record, within, words } from "../../base/store/shape";
import type { Rod } from "../spread/spread";

export const sures = ["sure", "quite", "roughly"] as const;
export const whens = ["now", "season", "before"] as const;

/** A setting known before, as it is typed; of which rod in hand. */
export interface Setting extends Pick<Rod, "place" | "rig" | "lineOut" | "drail" | "sinker"> {
  rod: string;
  speed: number;
  depth: number;
  sure: (typeof sures)[number];
  when: (typeof whens)[number];
}

/** The pull of a rod's line as it was set under way, SI. */
export interface Pulling extends Pick<Rod, "lineOut"> {
  rod: string;
  speed: number;
  pull: number;
}

export interface Teaching {
  setting: Setting | null;
  pulling: Pulling | null;
  /** When it was changed last, ms of the wall clock. */
  at: number;
}

const lineOut = within(limits.Rod.lineOut);
const speed = within(limits.Sea.speed);

const kept = new Kept<Teaching>(
  "teaching",
  record<Teaching>({
    setting: orNone(
      record<Setting>({
        rod: words,
        place: words,
        rig: words,
        lineOut,
        drail: number,
        sinker: number,
        speed,
        depth: within(limits.Sea.bottom),
        sure: oneOf(...sures),
        when: oneOf(...whens),
      }),
    ),
    pulling: orNone(
      record<Pulling>({ rod: words, lineOut, speed, pull: within(calibrate.Observation.pull) }),
    ),
    at: number,
  }),
  { setting: null, pulling: null, at: 0 },
);

/** What was left so long ago, ms, nobody goes on with. */
const left = 43_200_000;

/** What is being typed; nothing where it was left long ago. */
export const teaching = (): Teaching =>
  Math.abs(Date.now() - kept.value.at) < left ? kept.value : { setting: null, pulling: null, at: 0 };

export const setTeaching = (patch: Partial<Teaching>): void =>
  kept.set({ ...teaching(), ...patch, at: Date.now() });

export const teachingKept = kept;
