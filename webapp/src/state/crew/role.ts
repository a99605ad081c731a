/** What this phone may do besides what all may. A phone that is nobody's but its owner's may do all of it. */
import type { Right } from "../entry/contract";
import { you } from "../log/log";

export const may = (right: Right): boolean => you.value?.may.includes(right) ?? true;

/** The lists, the rules and the boat's particulars are the crew's to change; a guest reads and ticks. */
export const mayChange = (): boolean => may("crew");
