import { pace as english } from "../en/pace";
import { inUse } from "../spoken/in-use";

export const { pace } = inUse(english);
