/** One round of the exchange: a part of the outbox out, what others wrote in, all or nothing. */
import type { Book } from "../log/book";
import { type Answer, mostBytes, mostEntries, OtherVersion, readAnswer, requestFor, Unsound } from "./wire";

/** How a request reaches the server: fetch, or a server of the tests. */
export type Send = (body: string, signal: AbortSignal) => Promise<Response>;

/** Why a round did not happen; nothing has changed, here or in what is known of there. */
export type Trouble =
  /** No connection. */
  | "unreachable"
  /** No answer in time. */
  | "slow"
  /** The server is busy, full, or has a fault. */
  | "server"
  /** The answer is not one of ours: a marina's log-in page, for example. */
  | "unsound"
  /** The server is of another version. */
  | "version"
  /** The server does not know this phone, or not any more. */
  | "stranger";

export type Round =
  | { trouble: Trouble; /** ms to wait, as the server asks. */ after?: number }
  /** sent: how many entries went out; stale: another tab was faster. */
  | { answer: Answer; sent: number; stale: boolean };

/** The longest a request may take, ms. */
export const patience = 60_000;

export async function round(book: Book, send: Send, most = mostEntries, limit = patience): Promise<Round> {
  const batch = await book.batch(most, mostBytes);
  const { signal, stop } = deadline(limit);
  try {
    const response = await send(requestFor(batch), signal);
    if (response.status === 401) return { trouble: "stranger" };
    if (!response.ok) return { trouble: response.status === 409 ? "version" : "server", ...afterOf(response) };
    const answer = readAnswer(await json(response), batch);
    return { answer, sent: batch.entries.length, stale: !(await book.take(batch, answer)) };
  } catch (fault) {
    return { trouble: troubleOf(fault, signal) };
  } finally {
    stop();
  }
}

function troubleOf(fault: unknown, signal: AbortSignal): Trouble {
  if (signal.aborted) return "slow";
  if (fault instanceof OtherVersion) return "version";
  if (fault instanceof Unsound) return "unsound";
  if (fault instanceof TypeError) return "unreachable";
  throw fault;
}

async function json(response: Response): Promise<unknown> {
  const text = await response.text();
  try {
    return JSON.parse(text);
  } catch {
    throw new Unsound("no JSON");
  }
}

function afterOf(response: Response): { after?: number } {
  const seconds = Number(response.headers.get("Retry-After"));
  return seconds > 0 ? { after: Math.min(seconds, 3600) * 1000 } : {};
}

function deadline(ms: number): { signal: AbortSignal; stop: () => void } {
  const controller = new AbortController();
  const timer = setTimeout(() => controller.abort(), ms);
  return { signal: controller.signal, stop: () => clearTimeout(timer) };
}
