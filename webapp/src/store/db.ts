/** The phone's own database: documents by name, and what was found unreadable, kept aside. */
import type { DBSchema } from "idb";
import { Connection } from "./connection";

interface Schema extends DBSchema {
  /** Documents by name. */
  kept: { key: string; value: unknown };
  /** Unreadable data, as found. */
  aside: { key: number; value: { name: string; why: string; raw: unknown } };
}

const database = new Connection<Schema>("wirewake", 1, (db) => {
  db.createObjectStore("kept");
  db.createObjectStore("aside", { autoIncrement: true });
});

/** The document of this name; undefined if there is none. */
export const fetchKept = (name: string): Promise<unknown> => database.using((db) => db.get("kept", name));

/** Writes a document; resolves when the phone says it is on disk. */
export const writeKept = (name: string, value: unknown): Promise<void> =>
  database.using(async (db) => {
    const tx = db.transaction("kept", "readwrite", { durability: "strict" });
    await Promise.all([tx.store.put(value, name), tx.done]);
  });

/** Puts unreadable data aside as it was found. */
export const putAside = (name: string, raw: unknown, why: string): Promise<void> =>
  database.using(async (db) => {
    const tx = db.transaction("aside", "readwrite", { durability: "strict" });
    await Promise.all([tx.store.add({ name, why, raw }), tx.done]);
  });

/** Closes the connection, as the browser may do at any time. */
export const closeDatabase = (): Promise<void> => database.close();
