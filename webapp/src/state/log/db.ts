/** The database of the log: entries, a summary of every trip, photos, and where the exchange stands. */
import type { DBSchema, IDBPDatabase } from "idb";
import { Connection } from "../../base/store/connection";
import type { Stored } from "./entry";
import type { Summary } from "./summary";

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

/** Who this phone is to the boat's server. */
export interface You {
  device: string;
  name: string;
  role: "skipper" | "mate" | "guest";
  /** The only trip a guest sees. */
  trip?: string;
}

interface Meta {
  /** The count of the last entry written on this phone. */
  n: number;
  cursor: Cursor;
  you: You;
  /** The trip being noted in. */
  current: string;
}

export interface LogSchema extends DBSchema {
  entries: {
    key: string;
    value: Stored;
    indexes: {
      trip: string;
      kind: string;
      no: number;
      out: [number, number];
      outOfTrip: [string, [number, number]];
      refused: string;
    };
  };
  trips: { key: string; value: Summary };
  photos: { key: string; value: Photo };
  /** Small pictures of the photos, for lists. */
  thumbs: { key: string; value: Photo };
  shipments: { key: string; value: Shipment; indexes: { out: number } };
  meta: { key: keyof Meta; value: Meta[keyof Meta] };
}

export type MetaOf<K extends keyof Meta> = Meta[K];
export type MetaKey = keyof Meta;

export const logDatabase = (name: string): Connection<LogSchema> =>
  new Connection<LogSchema>(name, 3, async (db, from, _, tx) => {
    if (from < 1) create(db);
    if (from < 2) tx.objectStore("entries").createIndex("kind", "kind");
    const shipments = db.createObjectStore("shipments", { keyPath: "sha256" });
    shipments.createIndex("out", "out");
    // What an older app took may be there or not: the server is asked.
    for (const { set, trip, own } of await tx.objectStore("entries").index("kind").getAll("photo")) {
      const sha256 = set?.sha256;
      if (own && typeof sha256 === "string" && (await tx.objectStore("photos").getKey(sha256)))
        await shipments.put({ sha256, trip, out: 1 });
    }
  });

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
