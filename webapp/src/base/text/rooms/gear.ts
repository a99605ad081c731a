import { gear as english } from "../en/gear";
import { inUse } from "../spoken/in-use";

export const { gear } = inUse(english);
