import { lines as english } from "../en/lines";
import { inUse } from "../spoken/in-use";

export const { lines, thumb } = inUse(english);
