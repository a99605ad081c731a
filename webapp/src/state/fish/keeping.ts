/** The temperatures of a fish since its death, typed on this phone. */
import { limits, type Sample } from "../../base/desk/types/chill.gen";
import { Kept } from "../../base/store/kept";
import { list, record, within } from "../../base/store/shape";

/** Round in degrees of either kind. */
export const firstSamples: Sample[] = [
  { time: 0, temperature: 20 },
  { time: 4 * 3600, temperature: 5 },
  { time: 10 * 3600, temperature: 0 },
  { time: 58 * 3600, temperature: 0 },
];

export const samples = new Kept<Sample[]>(
  "keeping",
  list(
    record<Sample>({
      time: within(limits.Sample.time),
      temperature: within(limits.Sample.temperature),
    }),
    50,
  ),
  firstSamples,
);
