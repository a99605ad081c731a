import { lastFix, type Taken } from "../../base/position/position";

/** Where and when somebody first touched the control: the second touch only says that it was meant. */
export interface Moment {
  when: number;
  fix: Taken | undefined;
}

export const momentNow = (): Moment => ({ when: Date.now(), fix: lastFix.peek() });
