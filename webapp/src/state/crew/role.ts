/** The lists and the boat's particulars are the crew's to change; a guest reads and ticks. */
import { you } from "../log/log";

export const mayChange = (): boolean => you.value?.role !== "guest";
