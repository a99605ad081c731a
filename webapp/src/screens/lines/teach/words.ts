/** What was taught, in words. */
import { text } from "../../../base/text/text";
import { about, amount } from "../../../base/units/show";
import type { Quantity } from "../../../base/units/units";
import { moment } from "../../../base/units/when";
import { readingOf } from "../../../state/calibrate/observe";
import type { Reading, Taught } from "../../../state/calibrate/taught";
import { type Folded, number } from "../../../state/entry/fold";
import { weightsName } from "../../../state/gear/names";

export const quantities: { [R in Reading]: Quantity } = {
  known: "depth",
  angle: "angle",
  entry: "line",
  pull: "pull",
};

type Told = Pick<Taught, "kind" | "lineOut" | "reading"> &
  Partial<Pick<Taught, "drail" | "sinker" | "speed" | "at">>;

/** As it was noted; undefined where no app can read it. */
export function notedWords(record: Folded): string | undefined {
  const kind = readingOf(record) ?? "known";
  const [lineOut, reading] = [number(record, "lineOut"), number(record, kind === "known" ? "bottom" : kind)];
  if (lineOut === undefined || reading === undefined) return undefined;
  const of = (field: string) => number(record, field);
  const [drail, sinker, speed, at] = [of("drail"), of("sinker"), of("speed"), of("was")];
  return taughtWords({
    kind,
    lineOut,
    reading,
    ...(drail !== undefined && { drail }),
    ...(sinker !== undefined && { sinker }),
    ...(speed !== undefined && { speed }),
    ...(at !== undefined && { at }),
  });
}

/** “300 ft out ticks in 30 ft, 8 oz drail, 3.3 kn, 14:02” */
export function taughtWords({ kind, lineOut, reading, drail = 0, sinker = 0, speed, at }: Told): string {
  const read =
    kind === "known" ? amount("depth", reading) : about(quantities[kind], reading, kind === "pull" ? 0.1 : 1);
  return [
    text.teach.kinds[kind](amount("line", lineOut), read),
    weightsName(drail, sinker > 0 ? sinker : undefined),
    speed !== undefined && amount("speed", speed),
    at !== undefined && (kind === "known" ? whenWords(at) : moment(at)),
  ]
    .filter(Boolean)
    .join(", ");
}

/** What is known from before has no clock: as it was chosen. */
function whenWords(at: number): string {
  const days = (Date.now() - at) / 86_400_000;
  const { whens } = text.teach;
  return days < 1 ? moment(at) : (days < 365 ? whens.season : whens.before).toLowerCase();
}
