/** This phone asks to come aboard without an invitation, and looks what the skipper said. */
import { effect, signal } from "@preact/signals";
import { makeKey } from "../entry/mark";
import type { Asking } from "../log/disk/db";
import { book } from "../log/log";
import { aboard } from "./join";
import { askAboard, comeBack, Failed, type Trouble } from "./server";

/** The request that is under way, or has ended otherwise than with a yes. */
export const asking = signal<Asking | undefined>(undefined);

/** Why the server could not be asked the last time. */
export const unheard = signal<Trouble | undefined>(undefined);

async function keep(now: Asking | undefined): Promise<void> {
  asking.value = now;
  await book.setMeta("asking", now);
}

/** Asks, with a key of its own for each request. */
export async function ask(name: string): Promise<void> {
  const key = await makeKey();
  if (key) await send({ key, name });
}

async function send({ key, name }: Pick<Asking, "key" | "name">): Promise<void> {
  const { ask: back, word, lasts, answerable } = await askAboard(key, name);
  unheard.value = undefined;
  await keep({ key, name, back, word, answerable, ends: Date.now() + lasts });
}

/** Does not wait any longer. */
export const giveUp = (): Promise<void> => keep(undefined);

const waits = (of: Asking | undefined): of is Asking => of !== undefined && of.over === undefined;

/** Looks once what was said. */
async function look(): Promise<void> {
  const mine = asking.value;
  if (!waits(mine)) return;
  try {
    const came = await comeBack(mine.key, mine.back, mine.name);
    unheard.value = undefined;
    // Given up, or asked anew, while this was on its way.
    if (asking.value !== mine) return;
    if ("device" in came) {
      await aboard(came, mine.key);
      await keep(undefined);
    } else if (came.word !== mine.word) await keep({ ...mine, word: came.word });
  } catch (fault) {
    if (!(fault instanceof Failed)) throw fault;
    if (asking.value === mine) await failed(mine, fault.why);
  }
}

async function failed(mine: Asking, why: Trouble): Promise<void> {
  const code = why.kind === "said" ? why.code : "";
  if (code === "refused") await keep({ ...mine, over: "refused" });
  else if (code !== "invitation") unheard.value = why;
  else if (Date.now() >= mine.ends) await keep({ ...mine, over: "lapsed" });
  else await again(mine);
}

/** It made room for others who asked, or the server was put back to an earlier day. */
async function again(mine: Asking): Promise<void> {
  try {
    await send(mine);
  } catch (fault) {
    if (!(fault instanceof Failed)) throw fault;
    const code = fault.why.kind === "said" ? fault.why.code : "";
    if (code === "refused") await keep({ ...mine, over: "refused" });
    else if (code === "name") await keep({ ...mine, over: "named" });
    else unheard.value = fault.why;
  }
}

/** ms between two looks: the skipper stands there with a thumb on yes. */
const pause = 2500;

/** From now on waits for what the skipper says, also after the page was loaded anew. */
export async function keepAsking(): Promise<void> {
  const kept = await book.meta("asking");
  if (kept) asking.value ??= kept;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let looking = false;
  const soon = async () => {
    clearTimeout(timer);
    if (looking || document.hidden || !waits(asking.value)) return;
    looking = true;
    await look().finally(() => {
      looking = false;
    });
    timer = setTimeout(soon, pause);
  };
  effect(() => {
    if (waits(asking.value) && !looking) {
      clearTimeout(timer);
      timer = setTimeout(soon, pause);
    }
  });
  document.addEventListener("visibilitychange", soon);
  soon();
}
