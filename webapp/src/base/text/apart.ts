/** What Unicode writes from the right by default (DerivedBidiClass.txt, R and AL), and marks that say so. */
const fromRight =
  /[\u0590-\u08ff\u200e\u200f\ufb1d-\ufdff\ufe70-\ufefc\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;

/**
 * What somebody wrote, within a sentence of ours: what is read from the right turns nothing around it. Between first
 * strong isolate and pop directional isolate (UAX #9, 2.4.2); what is read from the left needs none.
 */
export const apart = (words: string): string => (fromRight.test(words) ? `\u2068${words}\u2069` : words);
