import { fish as english } from "../en/fish";
import { inUse } from "../spoken/in-use";

export const { fish } = inUse(english);
