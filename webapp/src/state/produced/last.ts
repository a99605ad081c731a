/** The season as it was read last: there is a picture of it at once, as of then, until it is read anew. */
import { fetchKept, writeKept } from "../../base/store/db";
import { text } from "../../base/text/text";
import { units } from "../../base/units/settings";
import type { Read } from "./read";
import { factorNames } from "./season";

const name = "season";

/** Anything else than what this very app has answered, in these words and units, is of no use, and no loss. */
const calc: string = import.meta.env.CALC ?? "";
const made = (): string => [calc, text.language, factorNames.join(), JSON.stringify(units())].join("|");

interface Last {
  made: string;
  read: Read;
}

export const keepLast = (read: Read): Promise<void> => writeKept(name, { made: made(), read } satisfies Last);

/** The last answer to a question; undefined where another was asked last, or none. */
export async function lastRead(question: string): Promise<Read | undefined> {
  const { made: as, read } = ((await fetchKept(name)) ?? {}) as Partial<Last>;
  return as === made() && read?.question === question ? read : undefined;
}
