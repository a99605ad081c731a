/** What is asked of the boat's server about phones and invitations: server/sync/README.md, Coming aboard. */
import {
  all,
  flag,
  Misshapen,
  maybe,
  orNone,
  record,
  type Shape,
  sound,
  whole,
  wordsUpTo,
} from "../../base/store/shape";
import type { Role } from "../entry/contract";
import { type Key, proofOf } from "../entry/mark";
import { exchangeOver } from "../exchange/exchange";
import { asYou } from "../exchange/wire";
import type { You } from "../log/disk/db";

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

const problem = record({ code: wordsUpTo(40), text: wordsUpTo(500) });
const nothing: Shape<void> = () => undefined;
const time = whole(0);

async function ask<T>(path: string, shape: Shape<T>, body?: object): Promise<T> {
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
      throw new Misshapen("no JSON");
    });
    if (response.ok) return sound(shape, said);
    throw new Failed({ kind: "said", ...sound(problem, said) });
  } catch (fault) {
    if (controller.signal.aborted) throw new Failed({ kind: "slow" });
    if (fault instanceof Misshapen) throw new Failed({ kind: "unsound" });
    if (fault instanceof TypeError) throw new Failed({ kind: "unreachable" });
    throw fault;
  } finally {
    clearTimeout(timer);
  }
}

/** Who this phone is; renews what it is known by. */
export const whoAmI = (): Promise<You> => ask("/api/me", asYou);

type By = { invitation: string } | { code: string };

/** Enrols with what was scanned, or with the code that was typed; with a key, if this phone makes one. */
export async function askToEnrol(by: By, name: string, key?: Key): Promise<You> {
  const secret = "code" in by ? by.code : by.invitation;
  const proven = key && { key: key.public, proof: await proofOf(key, "aboard", secret, name) };
  return ask("/api/enrol", asYou, { ...by, name, ...proven });
}

export interface Asked {
  ask: string;
  word: string;
  /** For how many ms it is waited for. */
  lasts: number;
  answerable: boolean;
}

const word = wordsUpTo(40);
const asked = record<Asked>({ ask: word, word, lasts: time, answerable: flag });

/** Asks to come aboard without an invitation. The same key and name once more is the same request. */
export const askAboard = async (key: Key, name: string): Promise<Asked> =>
  ask("/api/asks", asked, { name, key: key.public, proof: await proofOf(key, "ask", name) });

/** What came of it: aboard, or how long it is still waited for. */
const outcome: Shape<You | { word: string; lasts: number }> = (raw, spoilt) =>
  typeof raw === "object" && raw !== null && "device" in raw
    ? asYou(raw, spoilt)
    : record({ word, lasts: time })(raw, spoilt);

export const comeBack = async (
  key: Key,
  back: string,
  name: string,
): Promise<You | { word: string; lasts: number }> =>
  ask("/api/enrol", outcome, {
    ask: back,
    name,
    key: key.public,
    proof: await proofOf(key, "aboard", back, name),
  });

/** A phone that asks to come aboard. */
export interface Waiting {
  device: string;
  name: string;
  word: string;
  asked: number;
  ends: number;
  /** It was told yes, and has not come yet. */
  role: You["role"] | undefined;
  trip: string | undefined;
}

const waiting = record<Waiting>(
  {
    device: wordsUpTo(64),
    name: wordsUpTo(40),
    word,
    asked: time,
    ends: time,
    role: maybe(word),
    trip: maybe(word),
  },
  { role: undefined, trip: undefined },
);

export interface Asks {
  asks: Waiting[];
  /** How many more wait; one of them is found by its word. */
  more: number;
  /** From how many networks nobody may ask. */
  blocked: number;
}

export const lookWhoAsks = (byWord?: string): Promise<Asks> =>
  ask(
    byWord === undefined ? "/api/asks" : `/api/asks?word=${encodeURIComponent(byWord)}`,
    // An older server shows all that wait.
    record<Asks>({ asks: all(waiting, 600), more: whole(0), blocked: whole(0) }, { more: 0 }),
  );

/** What is asked about a trip that the boat's server has not got yet is asked again when this phone has brought it. */
async function withTrip<T>(question: () => Promise<T>): Promise<T> {
  try {
    return await question();
  } catch (fault) {
    if (!(fault instanceof Failed && fault.why.kind === "said" && fault.why.code === "trip")) throw fault;
    await exchangeOver();
    return question();
  }
}

const answerTo = ({ device, word }: Waiting, what: string, more: object): Promise<Waiting> =>
  ask(`/api/asks/${encodeURIComponent(device)}/${what}`, waiting, { word, ...more });

export const welcome = (who: Waiting, role: You["role"], trip: string | undefined): Promise<Waiting> =>
  withTrip(() => answerTo(who, "welcome", { role, ...(trip !== undefined && { trip }) }));

export const decline = (who: Waiting, block: boolean): Promise<Waiting> =>
  answerTo(who, "decline", { block });

export const unblock = (): Promise<void> => ask("/api/asks/unblock", nothing, {});

/** From now on this phone, which had the id so far, is known by this key. */
export const nameAfter = async (key: Key, device: string): Promise<You> =>
  ask("/api/key", asYou, { key: key.public, proof: await proofOf(key, "key", device) });

export interface Invitation {
  qr: string;
  code?: string | undefined;
  codeEnds?: number | undefined;
  ends: number;
}

const invitation = record<Invitation>(
  { qr: wordsUpTo(100_000), code: maybe(wordsUpTo(40)), codeEnds: maybe(time), ends: time },
  { code: undefined, codeEnds: undefined },
);

export const invite = (wanted: {
  role: Role;
  trip?: string;
  hours: number;
  uses: number;
}): Promise<Invitation> => withTrip(() => ask("/api/invitations", invitation, wanted));

/** An invitation that still lets phones aboard; how, only whoever got it knows. */
export interface OpenInvitation {
  invitation: string;
  role: You["role"];
  trip: string | undefined;
  /** null where that is not known. */
  made: number | null;
  /** The name of the phone that made it; undefined: in the terminal. */
  maker: string | undefined;
  ends: number;
  /** How many phones it still lets aboard. */
  uses: number;
}

const openInvitation = record<OpenInvitation>(
  {
    invitation: wordsUpTo(64),
    role: word,
    trip: maybe(word),
    made: orNone(time),
    maker: maybe(word),
    ends: time,
    uses: whole(0),
  },
  { trip: undefined, maker: undefined },
);

const listOfOpen = record({ invitations: all(openInvitation, 1000) });

export const openInvitations = async (): Promise<OpenInvitation[]> =>
  (await ask("/api/invitations", listOfOpen)).invitations;

/** Ends one; what comes back are those that are left. */
export const endInvitation = async (invitation: string): Promise<OpenInvitation[]> =>
  (await ask(`/api/invitations/${encodeURIComponent(invitation)}/end`, listOfOpen, {})).invitations;

export interface Device extends You {
  enrolled: number;
  lastSeen: number | null;
  revoked: number | null;
  /** Entries that it has counted and not brought. */
  missing: number;
  /** Entries and photos that it keeps back by its own word; null until it has said. */
  holds: number | null;
  /** What it lacks for sea by its own word, and when it said so; null until it has. */
  ready: { lacks: string[]; told: number } | null;
  /** The invitation by which it came, where that is known. */
  invited: string | undefined;
}

/** What an older app calls otherwise. */
const lack: Shape<string> = (raw, spoilt) => {
  const word = wordsUpTo(30)(raw, spoilt);
  return word === "home" ? "install" : word;
};

const device: Shape<Device> = (raw, spoilt) => ({
  ...asYou(raw, spoilt),
  ...record(
    {
      enrolled: time,
      lastSeen: orNone(time),
      revoked: orNone(time),
      missing: time,
      holds: orNone(time),
      ready: orNone(record({ lacks: all(lack, 30), told: time })),
      invited: maybe(wordsUpTo(64)),
    },
    // An older server says nothing of these.
    { ready: null, holds: null, invited: undefined },
  )(raw, spoilt),
});

export const devices = async (): Promise<Device[]> =>
  (await ask("/api/devices", record({ devices: all(device, 10_000) }))).devices;

/** Tells what this phone lacks for sea. */
export const tellReady = (lacks: string[]): Promise<void> => ask("/api/ready", nothing, { lacks });

export const revoke = (id: string): Promise<Device> =>
  ask(`/api/devices/${encodeURIComponent(id)}/revoke`, device, {});
