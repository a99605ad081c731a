import { calibrate as english } from "../en/calibrate";
import { inUse } from "../spoken/in-use";

export const { calibrate } = inUse(english);
