import { plan as english } from "../en/plan";
import { inUse } from "../spoken/in-use";

export const { plan } = inUse(english);
