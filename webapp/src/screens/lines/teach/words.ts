/** What was taught, in words. */
import { text } from "../../../base/text/text";
import { about, amount } from "../../../base/units/show";
import type { Quantity } from "../../../base/units/units";
import { readingOf } from "../../../state/calibrate/observe";
import type { Reading, Taught } from "../../../state/calibrate/taught";
import { type Folded, number } from "../../../state/entry/fold";

export const quantities: { [R in Reading]: Quantity } = {
  known: "depth",
  angle: "angle",
  entry: "line",
  pull: "pull",
};

/** As it was noted; undefined where no app can read it. */
export function notedWords(record: Folded): string | undefined {
  const kind = readingOf(record) ?? "known";
  const [lineOut, reading] = [number(record, "lineOut"), number(record, kind === "known" ? "bottom" : kind)];
  return lineOut === undefined || reading === undefined ? undefined : taughtWords({ kind, lineOut, reading });
}

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
