import { crew as english } from "../en/crew";
import { inUse } from "../spoken/in-use";

export const { crew } = inUse(english);
