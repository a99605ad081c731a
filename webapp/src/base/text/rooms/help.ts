import { help as english } from "../en/help";
import { inUse } from "../spoken/in-use";

export const { help } = inUse(english);
