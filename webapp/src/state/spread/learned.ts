/**
 * What this boat's own touches have taught of its lines, by kinds of wire and lure; kept, so that the first depths after
 * a start have it.
 */
import { type Learned, limits } from "../../base/desk/types/towline.gen";
import { Kept } from "../../base/store/kept";
import { flag, list, Misshapen, number, record, type Shape, within, words } from "../../base/store/shape";

/** Names of kinds of wire and lure. */
export interface Kinds {
  wire: string;
  lure: string;
}

export interface Lesson extends Kinds {
  learned: Learned;
}

export interface Lessons {
  /** Depths are told with them. */
  on: boolean;
  /** How many observations they rest on. */
  used: number;
  of: Lesson[];
}

const of = limits.Learned;

/** All of the root or none of it. */
const whole: Shape<number[]> = (raw, spoilt) => {
  const read = list(within(of.root), of.root.most)(raw, spoilt);
  if (read.length < of.root.fewest) throw new Misshapen("not a whole root");
  return read;
};

/** No more kinds than rods. */
const most = 8;

export const lessons = new Kept<Lessons>(
  "lessons",
  record<Lessons>({
    on: flag,
    used: number,
    of: list(
      record<Lesson>({
        wire: words,
        lure: words,
        learned: record<Learned>({
          lineDrag: within(of.lineDrag),
          friction: within(of.friction),
          lureWeight: within(of.lureWeight),
          lureDrag: within(of.lureDrag),
          lureLift: within(of.lureLift),
          sinkers: within(of.sinkers),
          root: whole,
        }),
      }),
      most,
    ),
  }),
  { on: true, used: 0, of: [] },
);

/** For the rod of a request; undefined: nothing is learned of such a line, or depths are to be as before. */
export function learnedOf({ wire, lure }: Kinds): Learned | undefined {
  const { on, of } = lessons.value;
  return on ? of.find((lesson) => lesson.wire === wire && lesson.lure === lure)?.learned : undefined;
}
