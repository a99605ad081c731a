import { card as english } from "../en/card";
import { inUse } from "../spoken/in-use";

export const { card } = inUse(english);
