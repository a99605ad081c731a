/** What this person chose about the app itself. The palette is not here: it is needed before the first paint. */
import { Kept } from "../store/kept";
import { flag, oneOf, record } from "../store/shape";
import { type Units, unitChoices } from "./units";

export interface Settings {
  units: Units;
  /** The cautions have been read once. */
  cautionsRead: boolean;
}

export const settings = new Kept<Settings>(
  "settings",
  record({
    units: record<Units>(
      {
        depth: oneOf(...unitChoices.depth),
        line: oneOf(...unitChoices.line),
        weight: oneOf(...unitChoices.weight),
        pull: oneOf(...unitChoices.pull),
        temperature: oneOf(...unitChoices.temperature),
      },
      { temperature: "°F" },
    ),
    cautionsRead: flag,
  }),
  {
    units: { depth: "ft", line: "ft", weight: "oz", pull: "lb", temperature: "°F" },
    cautionsRead: false,
  },
);

export const units = (): Units => settings.value.units;

/** The cautions and first steps have been seen: they are not offered again. */
export const noteCautions = (): void => settings.set({ ...settings.value, cautionsRead: true });
