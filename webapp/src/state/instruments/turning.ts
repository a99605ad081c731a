/** Where the boat has gone of late: by her compass, else by her course over ground. */
import { type Course, limits } from "../../base/desk/types/rise.gen";
import type { Heard } from "./heard";

/** What is farther apart, s, tells nothing of between. */
const gap = 5;
/** One is enough in so many s. */
const between = 1;
const full = 2 * Math.PI;

interface Seen {
  /** s of the running clock. */
  at: number;
  /** rad, and what she has turned through since the first, to starboard. */
  angle: number;
  toward: number;
  by: "heading" | "groundCourse";
}

/** The latest first. */
let seen: Seen[] = [];

export function noteHeading({ values, at: came }: Heard): void {
  const by = values.heading ? "heading" : "groundCourse";
  const one = values[by];
  if (!one) return;
  const at = came / 1000 - one.age;
  const [last] = seen;
  if (last && at < last.at + between) return;
  const now = { at, angle: one.value, toward: one.value, by } as const;
  if (!last || last.by !== by || at - last.at > gap) {
    seen = [now];
    return;
  }
  const step = one.value - last.angle;
  const toward = last.toward + step - full * Math.round(step / full);
  seen = [{ ...now, toward }, ...seen].slice(0, limits.Query.courses.most);
}

/** Her courses, as the desk takes them, and whether they are through the water, by her compass; undefined while they are not told. */
export function coursesNow(): { courses: Course[]; compass: boolean } | undefined {
  const [last] = seen;
  const now = performance.now() / 1000;
  if (!last || now - last.at > gap) return undefined;
  // After hours in circles she has turned through more than the desk takes.
  const round = full * Math.round(last.toward / full);
  const courses = seen.map(({ at, toward }) => ({ age: Math.max(0, now - at), toward: toward - round }));
  return { courses, compass: last.by === "heading" };
}
