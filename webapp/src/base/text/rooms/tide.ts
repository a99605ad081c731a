import { tide as english } from "../en/tide";
import { inUse } from "../spoken/in-use";

export const { tide } = inUse(english);
