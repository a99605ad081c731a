/** What was taught, in words. */
import { text } from "../../../base/text/text";
import { about, amount } from "../../../base/units/show";
import type { Quantity } from "../../../base/units/units";
import type { Reading, Taught } from "../../../state/calibrate/taught";

export const quantities: { [R in Reading]: Quantity } = {
  known: "depth",
  angle: "angle",
  entry: "line",
  pull: "pull",
};

/** “300 ft out ticks in 30 ft” */
export function taughtWords({
  kind,
  lineOut,
  reading,
}: Pick<Taught, "kind" | "lineOut" | "reading">): string {
  const read =
    kind === "known" ? amount("depth", reading) : about(quantities[kind], reading, kind === "pull" ? 0.1 : 1);
  return text.teach.kinds[kind](amount("line", lineOut), read);
}
