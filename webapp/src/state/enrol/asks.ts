/** On a phone that may invite: who asks to come aboard, while the boat's server is in reach. */
import { effect, signal } from "@preact/signals";
import { status } from "../exchange/exchange";
import { you } from "../log/log";
import { type Asks, decline, Failed, lookWhoAsks, type Waiting } from "./server";

export const asks = signal<Asks>({ asks: [], more: 0, blocked: 0 });

/** How many pages show them now: then it is looked often. */
const shown = signal(0);

export function showAsks(): () => void {
  shown.value++;
  return () => {
    shown.value--;
  };
}

/** ms between two looks. */
const often = 2000;
const seldom = 10_000;

const may = (): boolean => you.value?.may.includes("invite") === true;

export async function lookAtAsks(): Promise<boolean> {
  try {
    asks.value = await lookWhoAsks();
    return true;
  } catch {
    // Out of reach, or an older server: nobody can ask there.
    return false;
  }
}

/** What the server says of one of them takes its place. */
export function answered(one: Waiting): void {
  asks.value = {
    ...asks.value,
    asks: asks.value.asks.flatMap((was) => (was.device !== one.device ? [was] : one.role ? [one] : [])),
  };
}

/** Says no to these, and goes on past one that does not ask any more. */
export async function declineAll(these: Waiting[]): Promise<void> {
  for (const one of these) {
    try {
      answered(await decline(one, false));
    } catch (fault) {
      if (!(fault instanceof Failed && fault.why.kind === "said" && fault.why.code === "changed"))
        throw fault;
    }
  }
  await lookAtAsks();
}

/** From now on knows who asks. Out of reach of the server nothing is asked of it but what the exchange asks. */
export function keepLookingWhoAsks(): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const look = async () => {
    clearTimeout(timer);
    if (!may() || document.hidden) return;
    const reached = await lookAtAsks();
    clearTimeout(timer);
    if (reached || shown.value > 0) timer = setTimeout(look, shown.value > 0 ? often : seldom);
  };
  effect(() => {
    // Each exchange that came to its end says that the server is in reach.
    status.value.last;
    shown.value;
    you.value;
    look();
  });
  document.addEventListener("visibilitychange", look);
}
