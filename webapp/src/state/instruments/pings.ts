/** What the sounder has read of late: what the lures are still to come to. */
import { signal } from "@preact/signals";
import { limits } from "../../base/desk/types/rise.gen";
import type { Heard, Past } from "./heard";

export interface Ping {
  /** m. */
  depth: number;
  /** ms of the wall clock. */
  at: number;
  /** How far the boat had gone over ground, m, by the server's count; -1: it had none. */
  run: number;
}

/** What is older, ms, has long passed the farthest lure. */
const passed = 300_000;
/** One is enough in so many ms. */
const between = 900;
/** A reading that is older when it is told, s, was told before. */
const fresh = 1.5;

/** The latest first. */
export const pings = signal<Ping[]>([]);

const { min, max } = limits.Sounding.depth;
const fits = ({ depth }: Ping): boolean => depth >= min && depth <= max;

/** A server that was started anew counts from nought: what came before tells nothing then. */
const apart = (all: Ping[], now: number): Ping[] =>
  now >= 0 && (all.find(({ run }) => run >= 0)?.run ?? 0) > now + 1 ? [] : all;

export function notePing({ depth, run }: Heard): void {
  if (depth?.state !== "known" || depth.age > fresh) return;
  const at = Date.now() - depth.age * 1000;
  const one = { depth: depth.value, at, run };
  const before = apart(pings.peek(), run).filter((ping) => ping.at < at && at - ping.at < passed);
  const [last] = before;
  if (fits(one) && (!last || at - last.at >= between)) pings.value = [one, ...before];
}

export function notePast({ ages, depths, runs }: Past): void {
  const now = Date.now();
  const came = ages
    .map((age, i) => ({ at: now - age * 1000, depth: depths[i] ?? 0, run: runs[i] ?? 0 }))
    .filter((one) => now - one.at < passed && fits(one));
  const newest = came.at(-1);
  if (!newest) return;
  const before = apart(pings.peek(), newest.run).filter(({ at }) =>
    came.every((one) => Math.abs(one.at - at) >= between),
  );
  pings.value = [...before, ...came].sort((a, b) => b.at - a.at);
}
