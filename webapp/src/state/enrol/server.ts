/** What is asked of the boat's server about phones and invitations: server/sync/README.md, Coming aboard. */
import { readYou, record, short, Unsound } from "../exchange/wire";
import type { You } from "../log/db";
import { isCount } from "../log/entry";

/** Why the server did not do it; said: in its own words. */
export type Trouble =
  | { kind: "unreachable" | "slow" | "unsound" }
  | { kind: "said"; code: string; text: string };

export class Failed extends Error {
  constructor(readonly why: Trouble) {
    super(why.kind === "said" ? why.text : why.kind);
  }
}

const patience = 20_000;

async function ask<T>(path: string, read: (said: unknown) => T, body?: object): Promise<T> {
  const controller = new AbortController();
  const timer = setTimeout(() => controller.abort(), patience);
  try {
    const response = await fetch(path, {
      cache: "no-store",
      signal: controller.signal,
      ...(body && {
        method: "POST",
        headers: { "Content-Type": "application/json" },
        body: JSON.stringify(body),
      }),
    });
    const said: unknown = await response.json().catch(() => {
      throw new Unsound("no JSON");
    });
    if (response.ok) return read(said);
    const { code, text } = record(said, "the answer");
    throw new Failed({ kind: "said", code: short(code, "code", 40), text: short(text, "text", 500) });
  } catch (fault) {
    if (controller.signal.aborted) throw new Failed({ kind: "slow" });
    if (fault instanceof Unsound) throw new Failed({ kind: "unsound" });
    if (fault instanceof TypeError) throw new Failed({ kind: "unreachable" });
    throw fault;
  } finally {
    clearTimeout(timer);
  }
}

/** Who this phone is to the server, which renews its cookie. */
export const whoAmI = (): Promise<You> => ask("/api/me", readYou);

/** Enrols with what was scanned, or with the code that was typed. */
export const askToEnrol = (by: { invitation: string } | { code: string }, name: string): Promise<You> =>
  ask("/api/enrol", readYou, { ...by, name });

export interface Invitation {
  qr: string;
  code?: string;
  codeEnds?: number;
  ends: number;
}

export const invite = (wanted: {
  role: You["role"];
  trip?: string;
  hours: number;
  uses: number;
}): Promise<Invitation> =>
  ask(
    "/api/invitations",
    (said) => {
      const { qr, code, codeEnds, ends } = record(said, "the invitation");
      return {
        qr: short(qr, "qr", 100_000),
        ends: time(ends),
        ...(code !== undefined && { code: short(code, "code", 40), codeEnds: time(codeEnds) }),
      };
    },
    wanted,
  );

export interface Device extends You {
  enrolled: number;
  lastSeen: number | null;
  revoked: number | null;
  /** Entries that it has counted and not brought. */
  missing: number;
  /** What it lacks for sea by its own word, and when it said so; null until it has. */
  ready: { lacks: string[]; told: number } | null;
}

export const devices = (): Promise<Device[]> =>
  ask("/api/devices", (said) => {
    const { devices: all } = record(said, "the answer");
    if (!Array.isArray(all) || all.length > 10_000) throw new Unsound("no list of phones");
    return all.map(readDevice);
  });

/** Tells what this phone lacks for sea. */
export const tellReady = (lacks: string[]): Promise<void> => ask("/api/ready", () => undefined, { lacks });

export const revoke = (device: string): Promise<Device> =>
  ask(`/api/devices/${encodeURIComponent(device)}/revoke`, readDevice, {});

function readDevice(raw: unknown): Device {
  const { enrolled, lastSeen, revoked, missing, ready = null } = record(raw, "a phone");
  return {
    ...readYou(raw),
    enrolled: time(enrolled),
    lastSeen: lastSeen === null ? null : time(lastSeen),
    revoked: revoked === null ? null : time(revoked),
    missing: time(missing),
    ready: ready === null ? null : readReady(ready),
  };
}

/** The check by its name of now; older apps call some by another. */
const checkNow = (word: string): string => (word === "home" ? "install" : word);

function readReady(raw: unknown): Device["ready"] {
  const { lacks, told } = record(raw, "ready");
  if (!Array.isArray(lacks) || lacks.length > 30) throw new Unsound("no list of lacks");
  return { lacks: lacks.map((word) => checkNow(short(word, "lacks", 30))), told: time(told) };
}

function time(raw: unknown): number {
  if (!isCount(raw, 0)) throw new Unsound("no time");
  return raw;
}
