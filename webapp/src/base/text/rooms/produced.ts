import { produced as english } from "../en/produced";
import { inUse } from "../spoken/in-use";

export const { produced, keepsake, papers } = inUse(english);
