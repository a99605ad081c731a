/** The temperatures of a fish since its death, typed on this phone. */
import { limits, type Sample } from "../../base/desk/types/chill.gen";
import { Kept } from "../../base/store/kept";
import { list, record, within } from "../../base/store/shape";

export const firstSamples: Sample[] = [
  { time: 0, temperature: 18 },
  { time: 4 * 3600, temperature: 4 },
  { time: 10 * 3600, temperature: 0 },
  { time: 58 * 3600, temperature: 2 },
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
