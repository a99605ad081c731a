import { rise as english } from "../en/rise";
import { inUse } from "../spoken/in-use";

export const { rise } = inUse(english);
