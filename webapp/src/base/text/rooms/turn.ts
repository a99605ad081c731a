import { turn as english } from "../en/turn";
import { inUse } from "../spoken/in-use";

export const { turn } = inUse(english);
