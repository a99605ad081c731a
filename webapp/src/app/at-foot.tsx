import { after } from "./come";

/** How much is not sent, at the foot of every page, once that is known. */
export function AtFoot() {
  const Sending = after.value?.SendingAtFoot;
  return Sending ? <Sending /> : null;
}
