/** The phone's own database: documents by name, and what was found unreadable, kept aside. */
import { type DBSchema, type IDBPDatabase, openDB } from "idb";

interface Schema extends DBSchema {
  /** Documents by name. */
  kept: { key: string; value: unknown };
  /** Unreadable data, as found. */
  aside: { key: number; value: { name: string; why: string; raw: unknown } };
}

let open: Promise<IDBPDatabase<Schema>> | undefined;

function connect(): Promise<IDBPDatabase<Schema>> {
  open ??= openDB<Schema>("wirewake", 1, {
    upgrade(db) {
      db.createObjectStore("kept");
      db.createObjectStore("aside", { autoIncrement: true });
    },
    blocking(_now, _next, event) {
      (event.target as IDBDatabase).close();
      open = undefined;
    },
    terminated() {
      open = undefined;
    },
  }).catch((fault) => {
    open = undefined;
    throw fault;
  });
  return open;
}

/** Runs once on the open database; if its connection turns out closed, once more on a new one. */
async function using<T>(work: (db: IDBPDatabase<Schema>) => Promise<T>): Promise<T> {
  const db = await connect();
  try {
    return await work(db);
  } catch (fault) {
    if ((fault as Error).name !== "InvalidStateError") throw fault;
    open = undefined;
    return work(await connect());
  }
}

/** The document of this name; undefined if there is none. */
export const fetchKept = (name: string): Promise<unknown> => using((db) => db.get("kept", name));

/** Writes a document; resolves when the phone says it is on disk. */
export const writeKept = (name: string, value: unknown): Promise<void> =>
  using(async (db) => {
    const tx = db.transaction("kept", "readwrite", { durability: "strict" });
    await Promise.all([tx.store.put(value, name), tx.done]);
  });

/** Puts unreadable data aside as it was found. */
export const putAside = (name: string, raw: unknown, why: string): Promise<void> =>
  using(async (db) => {
    const tx = db.transaction("aside", "readwrite", { durability: "strict" });
    await Promise.all([tx.store.add({ name, why, raw }), tx.done]);
  });

/** Closes the connection, as the browser may do at any time. */
export async function closeDatabase(): Promise<void> {
  (await open)?.close();
}
