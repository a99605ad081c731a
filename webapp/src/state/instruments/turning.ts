/** How the boat has turned of late: by her compass, else by her course over ground. */
import type { Side } from "../../base/desk/types/towline.gen";
import type { Heard } from "./heard";

/** s: about as long as the boat takes for the length of a line. */
const over = 30;
/** What is farther apart, s, tells no turn between. */
const gap = 5;
/** Turned by less, rad, she wanders: a judgement. */
const wanders = 0.2;

interface Seen {
  /** s of the running clock. */
  at: number;
  /** rad, and how far she has turned to starboard since the first. */
  angle: number;
  turned: number;
  by: "heading" | "groundCourse";
}

let seen: Seen[] = [];

export function noteHeading({ values, at: came }: Heard): void {
  const by = values.heading ? "heading" : "groundCourse";
  const one = values[by];
  if (!one) return;
  const at = came / 1000 - one.age;
  const last = seen.at(-1);
  if (last && at <= last.at) return;
  if (!last || last.by !== by || at - last.at > gap) {
    seen = [{ at, angle: one.value, turned: 0, by }];
    return;
  }
  const full = 2 * Math.PI;
  const step = one.value - last.angle;
  const turned = last.turned + step - full * Math.round(step / full);
  seen = [...seen.filter((other) => at - other.at <= over + gap), { at, angle: one.value, turned, by }];
}

/** The turn in which she has been for long, at a speed through the water, m/s; undefined: on a straight course, or not known. */
export function turnNow(speed: number): { radius: number; toward: Side } | undefined {
  const last = seen.at(-1);
  if (!last || performance.now() / 1000 - last.at > gap) return undefined;
  const first = seen.findLast(({ at }) => last.at - at >= over);
  if (!first) return undefined;
  const turned = last.turned - first.turned;
  if (Math.abs(turned) < wanders) return undefined;
  const radius = (speed * (last.at - first.at)) / Math.abs(turned);
  return { radius, toward: turned > 0 ? "starboard" : "port" };
}
