/** The exchange at work: when to run, with which server, and in one tab at a time. */
import { effect, signal, untracked } from "@preact/signals";
import { noteClock } from "../../base/phone/clock";
import { route } from "../../base/shell/route";
import { deviceOf } from "../entry/mark";
import { book, changed, standing, tripOf, you } from "../log/log";
import { written } from "../log/saying/writing";
import { marked } from "../log/signing";
import { photosBack, sendPhotos, tryAllPhotos } from "../photos/photos";
import { Rounds } from "../photos/rounds";
import { Ear } from "./ear";
import { Keeper } from "./keeper";
import { type Ended, type Pace, run, type Send, type Sign } from "./run";
import type { Room } from "./wire";

const send: Send = (body, signal) =>
  fetch("/api/exchange", {
    method: "POST",
    headers: { "Content-Type": "application/json" },
    cache: "no-store",
    body,
    signal,
  });

/** A server that does not know this phone by its key is not told of it: one of before there were marks takes none. */
const sign: Sign = async (entries) => {
  const key = await book.meta("key");
  return key && you.value?.device === (await deviceOf(key)) ? marked(entries, key) : entries;
};

/** How much a guest's phone may still bring; undefined: as much as anybody notes. */
export const room = signal<Room | undefined>(undefined);

/** Something broke off since the server was last in reach. */
let away = false;

async function work(pace: Pace): Promise<Ended> {
  const before = book.writes;
  let ended: Ended | undefined;
  try {
    // What others noted is dated by it: it is known before that is taken.
    ended = await run(book, send, pace, sign, ({ now }) => noteClock(Date.now() - now));
    if (ended.answer) {
      room.value = ended.answer.room;
      if (away && !ended.trouble) photosBack();
      rounds.begin(ended.answer.wanted);
    }
    away = ended.trouble !== undefined;
    return ended;
  } finally {
    // What came before it broke off is there all the same. Where nothing did, nothing is read: a trip may be large.
    if (book.writes !== before) await changed();
    // The server is in reach: from now on it says when there is more.
    if (ended && !ended.trouble) hear();
  }
}

/** In one tab at a time, where the browser can tell; undefined: another one is at it. */
const alone = <T>(name: string, task: () => Promise<T>): Promise<T | undefined> =>
  navigator.locks
    ? navigator.locks.request(name, { ifAvailable: true }, (lock) => (lock ? task() : undefined))
    : task();

/** Photos go after the notes, and never keep the next notes waiting. What is left of them is told again. */
const rounds = new Rounds(async (wanted) => {
  const before = standing.peek().photos.length;
  const broke = await alone("wirewake-photos", () => sendPhotos(wanted)).catch(() => false);
  if (standing.peek().photos.length < before) exchange();
  return broke === true;
});

const ear = new Ear(
  () => new EventSource("/api/news"),
  async ({ epoch, upto }) => {
    const had = await book.meta("cursor");
    if (had?.epoch !== epoch || had.since < upto) exchange();
  },
  () => {
    away = true;
    exchangeSoon();
  },
);

const keeper = new Keeper(
  (pace) => alone("wirewake-exchange", () => work(pace)),
  Math.random,
  () => ear.listening,
);

export const status = keeper.status;

/** Whoever looks at the app hears of news at once: aboard, with the server in reach, and a guest while the trip is open. */
const mayHear = (): boolean => {
  const who = you.value;
  const guests = who && !who.may.includes("trips");
  const open = !guests || (who.trip !== undefined && tripOf(who.trip)?.closed === null);
  return who !== undefined && open && document.visibilityState === "visible";
};

/** In one tab at a time, where the browser can tell. */
async function hear(): Promise<void> {
  if (!mayHear() || ear.listening) return;
  await alone("wirewake-news", () => ear.listen());
}

/** Phones that lost the server at the same moment do not come back in the same. */
function exchangeSoon(): void {
  setTimeout(exchange, 500 + Math.random() * 2500);
}

/** Exchanges now, if this phone is enrolled. */
export function exchange(): void {
  if (you.value) keeper.wake();
}

/** Exchanges, and waits for the end of it, however it ends. */
export async function exchangeOver(): Promise<void> {
  exchange();
  // After one that was under way follows the one that was asked for.
  while (status.value.working)
    await new Promise<void>((done) => {
      const stop = status.subscribe(({ working }) => {
        if (working) return;
        done();
        queueMicrotask(() => stop());
      });
    });
}

/** The same because a person wants it: also what was put off for long. */
export function exchangeNow(): void {
  tryAllPhotos();
  exchange();
}

/** However often somebody looks, it is asked no oftener than so, ms. */
const spacing = 3000;
let asking: ReturnType<typeof setTimeout> | undefined;
let asked = Number.NEGATIVE_INFINITY;

/** Exchanges now, or in a moment, since somebody looks. */
function look(): void {
  clearTimeout(asking);
  const left = asked + spacing - performance.now();
  if (left > 0) {
    asking = setTimeout(look, left);
    return;
  }
  asked = performance.now();
  exchange();
}

/**
 * From now on exchanges whenever there is reason to: the network is back, the app is looked at, or, while the server was out of
 * reach, the notes or what is not sent; something was noted.
 */
export function keepExchanging(): void {
  addEventListener("online", () => {
    // What has just failed for want of a network is not kept waiting by that.
    if (status.peek().trouble) asked = Number.NEGATIVE_INFINITY;
    look();
  });
  const hidden = () => {
    clearTimeout(asking);
    ear.stop();
  };
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") look();
    else hidden();
  });
  effect(() => {
    const [place, page = "unsent"] = route.value;
    if (place === "notes" && page === "unsent" && status.peek().trouble) untracked(look);
  });
  addEventListener("pagehide", hidden);
  effect(() => {
    if (!mayHear()) ear.stop();
  });
  effect(() => {
    written.value;
    untracked(exchange);
  });
}
