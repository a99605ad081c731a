/** A file for the person, and what is said of it: of one that was only saved nothing else on the screen would tell. */
import { handOver } from "../../base/phone/hand-over";
import { text } from "../../base/text/text";

/** Undefined: the person thought better of it. */
export const give = async (...file: Parameters<typeof handOver>): Promise<string | undefined> =>
  (await handOver(...file)) ? text.notes.formats.handed(file[0]) : undefined;
