import { about as english } from "../en/about";
import { inUse } from "../spoken/in-use";

export const { about } = inUse(english);
