/**
 * The database of the log: entries, what is kept beside them of every trip and record, photos, and where the exchange
 * stands.
 */
import type { DBSchema, IDBPDatabase, IDBPTransaction, StoreNames } from "idb";
import { Connection } from "../../../base/store/connection";
import { type Right, rightsOf } from "../../entry/contract";
import { held, type Stored } from "../../entry/entry";
import type { Key } from "../../entry/mark";
import { type Line, nothingProjected, type Page, type Projected } from "./projections";
import { type Summary, summarise } from "./summary";

/** A photo by the SHA-256 of its bytes. Bytes rather than blobs: some browsers lose blobs. */
export interface Photo {
  sha256: string;
  type: string;
  bytes: ArrayBuffer;
  /** It came from the server, and can be fetched again. */
  fetched?: true;
}

/** A photo that this phone took: whether the server has it whole. */
export interface Shipment {
  sha256: string;
  trip: string;
  /** It is not known to be there. */
  out?: 1;
  /** Why it did not get there when it was last tried, by the code of the exchange. */
  why?: string;
}

/** How far this phone has what the server has; all but `more` is the server's own word. */
export interface Cursor {
  epoch: string;
  /** All numbers up to this one have been seen. */
  since: number;
  check: string;
  /** There was more after that: then it is fetched before anything is sent. */
  more: boolean;
}

/** Of one that has seen nothing. */
export const firstCursor: Cursor = { epoch: "", since: 0, check: "", more: false };

/** Which log an epoch numbers. The rest of an epoch says only what this phone may see of it. */
export const logOf = (epoch: string): string => epoch.split(".", 2).join(".");

/** Who this phone is to the boat's server. */
export interface You {
  device: string;
  name: string;
  /** As the server calls it: a newer one may know roles that this app does not. */
  role: string;
  /** What it may do besides what all may. */
  may: Right[];
  /** The server knows of marks, and takes them. */
  marks?: true;
  /** Without the right to all trips, the only one it sees; and those that were made one with it, and itself. */
  trip?: string;
  trips?: string[];
  /** The phones that are or were one of the crew's; an older server does not tell. */
  crew?: string[];
  /** Guests' phones that are aboard; an older server does not tell. */
  guests?: string[];
}

/** This phone's request to come aboard, until it is over. */
export interface Asking {
  /** Made for this request; with a yes it becomes this phone's. */
  key: Key;
  /** What it comes back with, and the word that the skipper's phone shows too. */
  back: string;
  word: string;
  name: string;
  /** Until when it is waited for, by this phone's clock. */
  ends: number;
  /** Somebody is aboard who may say yes. */
  answerable: boolean;
  over?: "refused" | "lapsed" | "named";
}

/** A try to come aboard whose answer has not come: made again with the same key, it is the same phone to the server. */
export interface Coming {
  key: Key;
  /** SHA-256 of what it came with and of its name: the invitation itself is on no disk. */
  by: string;
}

interface Meta {
  /** The count of the last entry written on this phone. */
  n: number;
  cursor: Cursor;
  you: You;
  /** The trip being noted in. */
  current: string;
  /** This phone's key, from when it is first needed. */
  key: Key;
  asking: Asking | undefined;
  coming: Coming | undefined;
  projected: Projected;
}

export interface LogSchema extends DBSchema {
  entries: {
    key: string;
    value: Stored;
    indexes: {
      trip: string;
      record: string;
      kind: string;
      no: number;
      out: [number, number];
      outOfTrip: [string, [number, number]];
      refused: string;
      kept: string;
    };
  };
  trips: { key: string; value: Summary };
  records: { key: [string, string]; value: Line; indexes: { latest: [string, number] } };
  words: { key: [string, number]; value: Page };
  photos: { key: string; value: Photo };
  /** Small pictures of the photos, for lists. */
  thumbs: { key: string; value: Photo };
  shipments: { key: string; value: Shipment; indexes: { out: number } };
  meta: { key: keyof Meta; value: Meta[keyof Meta] };
}

export type MetaOf<K extends keyof Meta> = Meta[K];
export type MetaKey = keyof Meta;

interface WithMeta {
  objectStore(name: "meta"): { get(key: MetaKey): Promise<MetaOf<MetaKey> | undefined> };
}

export async function metaIn<K extends MetaKey>(
  tx: WithMeta,
  key: K,
  otherwise: MetaOf<K>,
): Promise<MetaOf<K>> {
  return ((await tx.objectStore("meta").get(key)) as MetaOf<K> | undefined) ?? otherwise;
}

export const logDatabase = (name: string): Connection<LogSchema> =>
  new Connection<LogSchema>(name, 7, async (db, from, _, tx) => {
    if (from < 1) create(db);
    if (from < 2) tx.objectStore("entries").createIndex("kind", "kind");
    if (from < 3) await noteShipments(db, tx);
    if (from < 4) tx.objectStore("entries").createIndex("record", "record");
    if (from < 5) tx.objectStore("entries").createIndex("kept", "kept.code");
    if (from > 0 && from < 6) await keepContract(tx);
    // Of what is there already it is made once the app runs: that takes too long to wait for.
    if (from < 7) createProjections(db);
    if (from < 1) await tx.objectStore("meta").put(nothingProjected, "projected");
  });

type Upgrade = IDBPTransaction<LogSchema, StoreNames<LogSchema>[], "versionchange">;

/** What an older app took may be there or not: the server is asked. */
async function noteShipments(db: IDBPDatabase<LogSchema>, tx: Upgrade): Promise<void> {
  const shipments = db.createObjectStore("shipments", { keyPath: "sha256" });
  shipments.createIndex("out", "out");
  for (const { set, trip, own } of await tx.objectStore("entries").index("kind").getAll("photo")) {
    const sha256 = set?.sha256;
    if (own && typeof sha256 === "string" && (await tx.objectStore("photos").getKey(sha256)))
      await shipments.put({ sha256, trip, out: 1 });
  }
}

/**
 * What an older app took in may not keep the contract: it is held as what cannot be read, and the trips told anew. What it
 * kept on this phone only is counted from now on.
 */
async function keepContract(tx: Upgrade): Promise<void> {
  const entries = tx.objectStore("entries");
  for (let at = await entries.openCursor(); at; at = await at.continue()) {
    const entry = held(at.value);
    const { no, out, refused, replaced } = at.value;
    const kept = no === undefined && !out && !refused && !replaced && { kept: { code: "kept", why: "" } };
    if (entry.unreadable || kept)
      await at.update({ ...entry, id: at.value.id, trip: at.value.trip, ...kept });
  }
  for (const trip of await tx.objectStore("trips").getAllKeys())
    await tx.objectStore("trips").put(summarise(await entries.index("trip").getAll(trip)));
  const ofNone = await entries.index("trip").getAll("");
  if (ofNone.length > 0) await tx.objectStore("trips").put(summarise(ofNone));
  const you = (await tx.objectStore("meta").get("you")) as You | undefined;
  if (you) await tx.objectStore("meta").put({ ...you, may: you.may ?? rightsOf(you.role) }, "you");
}

function createProjections(db: IDBPDatabase<LogSchema>): void {
  const records = db.createObjectStore("records", { keyPath: ["trip", "record"] });
  records.createIndex("latest", ["of", "back"]);
  db.createObjectStore("words", { keyPath: ["trip", "page"] });
}

function create(db: IDBPDatabase<LogSchema>): void {
  const entries = db.createObjectStore("entries", { keyPath: "id" });
  entries.createIndex("trip", "trip");
  entries.createIndex("no", "no");
  entries.createIndex("out", "out");
  entries.createIndex("outOfTrip", ["trip", "out"]);
  entries.createIndex("refused", "refused.code");
  db.createObjectStore("trips", { keyPath: "trip" });
  db.createObjectStore("photos", { keyPath: "sha256" });
  db.createObjectStore("thumbs", { keyPath: "sha256" });
  db.createObjectStore("meta");
}
