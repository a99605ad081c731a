/** What the record was asked on this phone so far: every question is paid for, also those of an earlier start of the app. */
import { limits } from "../../base/desk/types/produced.gen";
import { Kept } from "../../base/store/kept";
import { list, wordsUpTo } from "../../base/store/shape";

const most = limits.Query.looks.max;

export const asked = new Kept<string[]>("looks", list(wordsUpTo(1000), most), []);

/** Counts a question, if it is to be paid for and new; how many are paid for with it. */
export function pay(question: string | undefined): number {
  const known = asked.signal.peek();
  if (question === undefined || known.includes(question) || known.length >= most)
    return Math.max(1, known.length);
  asked.set([...known, question]);
  return known.length + 1;
}
