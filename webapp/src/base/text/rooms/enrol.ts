import { enrol as english } from "../en/enrol";
import { inUse } from "../spoken/in-use";

export const { enrol, ready, wayIn } = inUse(english);
