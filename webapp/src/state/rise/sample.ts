/** For tests: a lure that touches on a rise, 40 s behind the boat. */
import type { Coming } from "../../base/desk/types/rise.gen";

export const sampleComing: Coming = {
  verdict: "touches",
  astern: 70,
  lag: 40,
  over: 0,
  aside: 0,
  from: 0,
  until: 40,
  depth: { low: 10, mid: 11, high: 12 },
  shoalest: 10.5,
  shoalestIn: 30,
  in: 25,
  lineIn: 5,
  speed: 2,
};
