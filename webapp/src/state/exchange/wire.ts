/** The exchange on the wire, as server/sync/README.md tells it; what comes in is checked before it is believed. */
import {
  all,
  flag,
  formed,
  Misshapen,
  maybe,
  record,
  type Shape,
  sound,
  whole,
  words,
  wordsUpTo,
} from "../../base/store/shape";
import { plainLine, type Right, rights, rightsOf } from "../entry/contract";
import { content, type Entry, held, type Numbered, type Stored, said, type Writer } from "../entry/entry";
import { isUuid } from "../entry/uuid";
import type { You } from "../log/disk/db";
import type { Batch, Outcome } from "../log/disk/exchanging";

export const version = 1;

/** The most entries of one request, and bytes of them. */
export const mostEntries = 200;
export const mostBytes = 900_000;

/** How much a guest may still bring. */
export interface Room {
  entries: number;
  bytes: number;
}

export interface Answer extends Outcome {
  /** The server's clock, ms since 1970. */
  now: number;
  /** Photos that entries of this phone name and the server has not got. */
  wanted: string[];
  room?: Room;
}

/** The server speaks another version of the exchange than this app. */
export class OtherVersion extends Error {}

/** The answer is not what a server of ours sends; nothing of it is used. */
export { Misshapen as Unsound };

export function requestFor({ cursor: { epoch, since, check }, entries, holds }: Batch): string {
  return JSON.stringify({ version, epoch, since, check, holds, entries: entries.map(sent) });
}

/** What another phone wrote is brought in its name. */
const sent = (entry: Stored) => {
  const { own, by, byName, mark } = entry;
  return {
    ...said(entry),
    ...(by && byName && (mark || !own) && { by, byName }),
    ...(by && byName && mark && { mark }),
  };
};

const no = whole(1);
const anything: Shape<unknown> = (raw) => raw;

/** An answer as it is written; what its parts mean for each other is looked at after. */
const written = record(
  {
    epoch: formed(/^.{1,200}$/),
    upto: whole(0),
    check: words,
    more: flag,
    taken: all(record({ id: words, no }), mostEntries),
    // By their places: what cannot be read may have no id.
    refused: all(record({ index: whole(0), code: wordsUpTo(40), why: wordsUpTo(1000) }), mostEntries),
    entries: all(anything, 1000),
    spoilt: maybe(all(no, 200)),
    now: whole(0),
    you: anything,
    photos: record({ wanted: all(anything, 200) }),
    room: maybe(record({ entries: whole(0), bytes: whole(0) })),
  },
  // An older server says nothing of these.
  { spoilt: undefined, room: undefined },
);

/** Reads the answer to a batch; throws OtherVersion or Misshapen. */
export function readAnswer(raw: unknown, sent: Batch): Answer {
  const { version: spoken } = sound(record({ version: anything }), raw);
  if (spoken !== version) throw new OtherVersion();
  const a = sound(written, raw);
  const since = a.epoch === sent.cursor.epoch ? sent.cursor.since : 0;
  if (a.upto < since) throw new Misshapen("upto goes back");
  if (a.more && a.upto === since) throw new Misshapen("there is more, but upto stands still");
  const open = new Set(sent.entries.map((entry) => entry.id));
  const refused = a.refused.map(({ index, code, why }) => ({ id: sent.entries[index]?.id ?? "", code, why }));
  for (const { id } of [...a.taken, ...refused])
    if (!open.delete(id)) throw new Misshapen("an id that was not sent, or twice");
  if (open.size > 0) throw new Misshapen("an entry without an answer");
  const entries = a.entries.map(numbered);
  let last = since;
  for (const entry of entries) {
    if (entry.no <= last || entry.no > a.upto)
      throw new Misshapen("entries are not in the order of their numbers");
    last = entry.no;
  }
  return {
    cursor: { epoch: a.epoch, since: a.upto, check: a.check, more: a.more },
    taken: a.taken,
    refused,
    entries,
    spoilt: a.spoilt ?? [],
    now: a.now,
    you: readYou(a.you),
    wanted: a.photos.wanted.filter(isSha256),
    ...(a.room && { room: a.room }),
  };
}

const isRight = (raw: unknown): raw is Right => rights.includes(raw as Right);

/** Who a phone is to the server. What it may do is what the server says; if it says nothing, what its role may. */
export const asYou: Shape<You> = (raw, spoilt) => {
  const { device, name, role, trip, trips, may, crew, guests } = record(
    {
      device: wordsUpTo(64),
      name: words,
      role: wordsUpTo(40),
      trip: anything,
      trips: anything,
      may: anything,
      crew: anything,
      guests: anything,
    },
    { trip: undefined, trips: undefined, may: undefined, crew: undefined, guests: undefined },
  )(raw, spoilt);
  if (trip !== undefined && !isUuid(trip)) throw new Misshapen("trip is not a UUID");
  return {
    device,
    name,
    role,
    may: Array.isArray(may) ? may.filter(isRight) : rightsOf(role),
    // It came with the rights.
    ...(may !== undefined && { marks: true as const }),
    ...(isUuid(trip) && { trip }),
    ...(Array.isArray(trips) && { trips: trips.filter(isUuid).slice(0, 100) }),
    ...(Array.isArray(crew) && { crew: crew.filter(isUuid) }),
    ...(Array.isArray(guests) && { guests: guests.filter(isUuid) }),
  };
};

export const readYou = (raw: unknown): You => sound(asYou, raw);

const isSha256 = (raw: unknown): raw is string => typeof raw === "string" && /^[0-9a-f]{64}$/.test(raw);

const place = record({ no });

/** One that does not keep the contract does not keep back those that do: it is held as what cannot be read. */
function numbered(raw: unknown): Numbered {
  const { no } = sound(place, raw);
  const { by, byName, via, viaName, mark } = raw as Partial<Writer>;
  // A name from before the contract may hold what turns the words after it.
  const told = (text: unknown, most: number): string =>
    typeof text === "string" ? plainLine(text).slice(0, most) : "";
  return {
    ...held(content(raw as Entry)),
    no,
    by: told(by, 64),
    byName: told(byName, 200),
    ...(via !== undefined && { via: told(via, 64), viaName: told(viaName, 200) }),
    ...(typeof mark === "string" && mark.length <= 200 && { mark }),
  };
}
