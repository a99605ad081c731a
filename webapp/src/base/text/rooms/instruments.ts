import { instruments as english } from "../en/instruments";
import { inUse } from "../spoken/in-use";

export const { instruments, alarms } = inUse(english);
