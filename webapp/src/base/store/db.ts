/** The phone's own database: documents by name, and what was found unreadable, kept aside. */
import type { DBSchema } from "idb";
import { Connection } from "./connection";
import { toJson } from "./json";

interface Schema extends DBSchema {
  /** Documents by name. */
  kept: { key: string; value: unknown };
  /** Unreadable data, as found. */
  aside: { key: number; value: PutAside };
}

/** Name of the document, why it or a part of it could not be read, and what was found. */
export interface PutAside {
  name: string;
  why: string;
  raw: unknown;
}

const database = new Connection<Schema>("wirewake", 1, (db) => {
  db.createObjectStore("kept");
  db.createObjectStore("aside", { autoIncrement: true });
});

/** What is asked for in one go is read in one transaction. */
let together: { names: string[]; read: Promise<unknown[]> } | undefined;

/** The document of this name; undefined if there is none. */
export async function fetchKept(name: string): Promise<unknown> {
  if (!together) {
    const names: string[] = [];
    const read = Promise.resolve().then(() => {
      together = undefined;
      return database.using((db) => {
        const store = db.transaction("kept").store;
        return Promise.all(names.map((one) => store.get(one)));
      });
    });
    together = { names, read };
  }
  const { names, read } = together;
  const at = names.push(name) - 1;
  return (await read)[at];
}

/** Writes a document; resolves when the phone says it is on disk. */
export const writeKept = (name: string, value: unknown): Promise<void> =>
  database.using(async (db) => {
    const tx = db.transaction("kept", "readwrite", { durability: "strict" });
    await Promise.all([tx.store.put(value, name), tx.done]);
  });

/** Puts unreadable data aside as it was found; once, however often it is found. */
export const addAside = (found: PutAside): Promise<void> =>
  database.using(async (db) => {
    const tx = db.transaction("aside", "readwrite", { durability: "strict" });
    const text = toJson(found);
    if (!(await tx.store.getAll()).some((one) => toJson(one) === text)) await tx.store.add(found);
    await tx.done;
  });

/** All that was put aside, by key. */
export const fetchAside = (): Promise<Map<number, PutAside>> =>
  database.using(async (db) => {
    const tx = db.transaction("aside");
    const [keys, all] = await Promise.all([tx.store.getAllKeys(), tx.store.getAll()]);
    return new Map(keys.map((key, i) => [key, all[i] as PutAside]));
  });

/** Lets go of what was put aside under these keys, for good. */
export const dropAside = (keys: number[]): Promise<void> =>
  database.using(async (db) => {
    const tx = db.transaction("aside", "readwrite", { durability: "strict" });
    await Promise.all([...keys.map((key) => tx.store.delete(key)), tx.done]);
  });

/** Closes the connection, as the browser may do at any time. */
export const closeDatabase = (): Promise<void> => database.close();
