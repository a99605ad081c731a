/** How this person wants Pace to work. */
import { limits } from "../../base/desk/types/current.gen";
import { Kept } from "../../base/store/kept";
import { flag, number, orNone, record, within } from "../../base/store/shape";

export interface PaceSettings {
  /** Over how many s speed and course are averaged. */
  window: number;
  /** Speed band and beat are said aloud. */
  aloud: boolean;
  /** The screen stays on while a trip runs. */
  awake: boolean;
  /** Lines takes its speed from here. */
  follow: boolean;
  /** The speeds through the water wanted, where the person has set them; m/s. */
  wanted: { low: number; high: number } | null;
}

export const windows = [5, 10, 20, 30] as const;

const speed = within(limits.Throttle.low);

export const paceSettings = new Kept<PaceSettings>(
  "pace",
  record<PaceSettings>({
    window: number,
    aloud: flag,
    awake: flag,
    follow: flag,
    wanted: orNone(record({ low: speed, high: speed })),
  }),
  { window: 10, aloud: false, awake: true, follow: false, wanted: null },
);

export const set = (patch: Partial<PaceSettings>): void =>
  paceSettings.set({ ...paceSettings.value, ...patch });
