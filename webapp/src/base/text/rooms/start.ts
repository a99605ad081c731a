import { start as english } from "../en/start";
import { inUse } from "../spoken/in-use";

export const { start } = inUse(english);
