import { notes as english } from "../en/notes";
import { inUse } from "../spoken/in-use";

export const { notes, exchange } = inUse(english);
