/**
 * One run of the exchange: the outbox out and what others wrote in, part by part, until both have all of it.
 * Each part happens whole or not at all, on either side, so that a run may break off anywhere.
 */

import { text } from "../../base/text/text";
import type { Stored } from "../entry/entry";
import type { Book } from "../log/disk/book";
import type { Batch } from "../log/disk/exchanging";
import { type Answer, mostBytes, mostEntries, OtherVersion, readAnswer, requestFor, Unsound } from "./wire";

/** How a request reaches the server: fetch, or the server of a test. */
export type Send = (body: string, signal: AbortSignal) => Promise<Response>;

/** Why a run broke off. Nothing is lost by it, here or there. */
export type Trouble =
  /** No connection. */
  | "unreachable"
  /** No answer in time. */
  | "slow"
  /** The server is busy or has a fault. */
  | "server"
  /** The server has no room left. What others wrote still comes. */
  | "full"
  /** The boat's harbour does not serve it for now. */
  | "suspended"
  /** The answer is not one of ours: a marina's log-in page, for example. */
  | "unsound"
  /** The server speaks another version. */
  | "version"
  /** This phone's own storage failed. */
  | "phone"
  /** The server does not know this phone, or not any more. */
  | "stranger";

export interface Ended {
  trouble?: Trouble;
  /** How long the server asks to be left alone, ms. */
  after?: number;
  /** The last answer there was. */
  answer?: Answer;
}

export interface Pace {
  /** The most entries to send at once: fewer on a slow line. */
  most: number;
  /** The longest to wait for an answer, ms. */
  patience: number;
}

/** Puts this phone's mark to its own entries. */
export type Sign = (entries: Stored[]) => Promise<Stored[]>;

export async function run(
  book: Book,
  send: Send,
  { most, patience }: Pace = { most: mostEntries, patience: 60_000 },
  sign: Sign = async (entries) => entries,
  hear: (answer: Answer) => void = () => {},
): Promise<Ended> {
  let full = false;
  let answer: Answer | undefined;
  let told: number | undefined;
  for (;;) {
    const batch = await book.batch(full ? 0 : most, mostBytes);
    if (batch.tooLarge) {
      await book.holdBack(batch.tooLarge, { code: "size", why: text.exchange.refusals.size ?? "" });
      continue;
    }
    // What this phone holds back is told last of all, as it is then.
    if (answer && !batch.cursor.more && batch.entries.length === 0 && batch.holds === told)
      return { answer, ...(full && { trouble: "full" }) };
    const result = await ask({ ...batch, entries: await sign(batch.entries) }, send, patience);
    if (result.trouble === "full" && !full) full = true;
    else if (result.trouble) return { ...result, ...(answer && { answer }) };
    else if (result.answer) {
      hear(result.answer);
      await book.take(batch, result.answer);
      answer = result.answer;
      told = batch.holds;
    }
  }
}

/** Sends a batch and reads the answer; changes nothing. */
async function ask(batch: Batch, send: Send, patience: number): Promise<Ended> {
  const controller = new AbortController();
  const timer = setTimeout(() => controller.abort(), patience);
  try {
    const response = await send(requestFor(batch), controller.signal);
    const said = await json(response);
    if (response.ok) return { answer: readAnswer(said, batch) };
    return { trouble: troubleIn(response, said), ...afterOf(response) };
  } catch (fault) {
    if (controller.signal.aborted) return { trouble: "slow" };
    if (fault instanceof OtherVersion) return { trouble: "version" };
    if (fault instanceof Unsound) return { trouble: "unsound" };
    if (fault instanceof TypeError) return { trouble: "unreachable" };
    throw fault;
  } finally {
    clearTimeout(timer);
  }
}

/** Undefined: no JSON. */
async function json(response: Response): Promise<unknown> {
  const text = await response.text();
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

function troubleIn({ status }: Response, said: unknown): Trouble {
  const code = typeof said === "object" && said !== null && "code" in said ? said.code : undefined;
  if (status === 401) return code === "aboard" ? "stranger" : "unsound";
  if (code === "version") return "version";
  if (status === 413) return "slow";
  if (code === "suspended") return code;
  return status === 507 ? "full" : "server";
}

function afterOf(response: Response): { after?: number } {
  const seconds = Number(response.headers.get("Retry-After"));
  return seconds > 0 ? { after: Math.min(seconds, 3600) * 1000 } : {};
}
