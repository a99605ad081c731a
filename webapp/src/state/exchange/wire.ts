/** The exchange on the wire, as server/sync/README.md tells it; what comes in is checked before it is believed. */
import type { Batch, Outcome } from "../log/book";
import type { You } from "../log/db";
import { content, type Entry, faultOf, isCount, type Numbered, type Stored } from "../log/entry";
import { isUuid } from "../log/uuid";

export const version = 1;

/** The most entries of one request, and bytes of them. */
export const mostEntries = 200;
export const mostBytes = 900_000;

export interface Answer extends Outcome {
  /** The server's clock, ms since 1970. */
  now: number;
  /** Photos that entries of this phone name and the server has not got. */
  wanted: string[];
}

/** The server speaks another version of the exchange than this app. */
export class OtherVersion extends Error {}

/** The answer is not what a server of ours sends; nothing of it is used. */
export class Unsound extends Error {}

export function requestFor({ cursor: { epoch, since, check }, entries }: Batch): string {
  return JSON.stringify({ version, epoch, since, check, entries: entries.map(sent) });
}

/** What another phone wrote is brought in its name. */
const sent = (entry: Stored) => ({
  ...content(entry),
  ...(!entry.own && entry.by && { by: entry.by, byName: entry.byName }),
});

/** Reads the answer to a batch; throws OtherVersion or Unsound. */
export function readAnswer(raw: unknown, sent: Batch): Answer {
  const a = record(raw, "the answer");
  if (a.version !== version) throw new OtherVersion();
  const epoch = short(a.epoch, "epoch", 200);
  if (epoch === "") throw new Unsound("epoch is empty");
  const since = epoch === sent.cursor.epoch ? sent.cursor.since : 0;
  const upto = count(a.upto, "upto", since);
  if (typeof a.more !== "boolean") throw new Unsound("more is not yes or no");
  if (a.more && upto === since) throw new Unsound("there is more, but upto stands still");
  const open = new Set(sent.entries.map((entry) => entry.id));
  const settle = (id: unknown): string => {
    if (typeof id !== "string" || !open.delete(id)) throw new Unsound("an id that was not sent, or twice");
    return id;
  };
  const taken = list(a.taken, "taken", mostEntries).map((one) => {
    const { id, no } = record(one, "taken");
    return { id: settle(id), no: count(no, "no", 1) };
  });
  const refused = list(a.refused, "refused", mostEntries).map((one) => {
    const { id, code, why } = record(one, "refused");
    return { id: settle(id), code: short(code, "code", 40), why: short(why, "why", 1000) };
  });
  if (open.size > 0) throw new Unsound("an entry without an answer");
  let last = since;
  const entries = list(a.entries, "entries", 1000).map((one) => {
    const entry = numbered(one);
    if (entry.no <= last || entry.no > upto)
      throw new Unsound("entries are not in the order of their numbers");
    last = entry.no;
    return entry;
  });
  return {
    cursor: { epoch, since: upto, check: short(a.check, "check", 200), more: a.more },
    taken,
    refused,
    entries,
    now: count(a.now, "now", 0),
    you: readYou(a.you),
    spoilt: list(a.spoilt ?? [], "spoilt", 200).map((no) => count(no, "spoilt", 1)),
    wanted: list(record(a.photos, "photos").wanted, "wanted", 200).filter(isSha256),
  };
}

export function readYou(raw: unknown): You {
  const y = record(raw, "you");
  const { role, trip } = y;
  if (role !== "skipper" && role !== "mate" && role !== "guest") throw new Unsound("role is unknown");
  if (trip !== undefined && !isUuid(trip)) throw new Unsound("trip is not a UUID");
  if (role === "guest" && trip === undefined) throw new Unsound("a guest without a trip");
  return {
    device: short(y.device, "device", 64),
    name: short(y.name, "name", 200),
    role,
    ...(trip !== undefined && { trip }),
  };
}

const isSha256 = (raw: unknown): raw is string => typeof raw === "string" && /^[0-9a-f]{64}$/.test(raw);

function numbered(raw: unknown): Numbered {
  const fault = faultOf(raw);
  if (fault) throw new Unsound(`an entry ${fault}`);
  const { no, by, byName, via, viaName } = record(raw, "entry");
  return {
    ...content(raw as Entry),
    no: count(no, "no", 1),
    by: short(by, "by", 64),
    byName: short(byName, "byName", 200),
    ...(via !== undefined && { via: short(via, "via", 64), viaName: short(viaName, "viaName", 200) }),
  };
}

export function record(raw: unknown, what: string): { [field: string]: unknown } {
  if (typeof raw !== "object" || raw === null || Array.isArray(raw))
    throw new Unsound(`${what} is no record`);
  return raw as { [field: string]: unknown };
}

function list(raw: unknown, what: string, most: number): unknown[] {
  if (!Array.isArray(raw) || raw.length > most) throw new Unsound(`${what} is no list, or too long`);
  return raw;
}

function count(raw: unknown, what: string, least: number): number {
  if (!isCount(raw, least)) throw new Unsound(`${what} is no count from ${least}`);
  return raw;
}

export function short(raw: unknown, what: string, most: number): string {
  if (typeof raw !== "string" || raw.length > most) throw new Unsound(`${what} is no text, or too long`);
  return raw;
}
