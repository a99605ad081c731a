import { teach as english } from "../en/teach";
import { inUse } from "../spoken/in-use";

export const { teach } = inUse(english);
