/** A database of this phone that is opened when needed and opened again when the browser has closed it. */
import { type DBSchema, type IDBPDatabase, type OpenDBCallbacks, openDB } from "idb";

export class Connection<S extends DBSchema> {
  private open: Promise<IDBPDatabase<S>> | undefined;

  constructor(
    private readonly name: string,
    private readonly version: number,
    private readonly upgrade: NonNullable<OpenDBCallbacks<S>["upgrade"]>,
  ) {}

  /**
   * Runs once on the open database; if its connection turns out closed, once more on a new one. The work is
   * one transaction, so that nothing of the first run can have happened.
   */
  async using<T>(work: (db: IDBPDatabase<S>) => Promise<T>): Promise<T> {
    const db = await this.connect();
    try {
      return await work(db);
    } catch (fault) {
      if ((fault as Error).name !== "InvalidStateError") throw fault;
      this.open = undefined;
      return work(await this.connect());
    }
  }

  /** Closes the connection, as the browser may do at any time. */
  async close(): Promise<void> {
    (await this.open)?.close();
  }

  private connect(): Promise<IDBPDatabase<S>> {
    this.open ??= openDB<S>(this.name, this.version, {
      upgrade: this.upgrade,
      blocking: (_now, _next, event) => {
        (event.target as IDBDatabase).close();
        this.open = undefined;
      },
      terminated: () => {
        this.open = undefined;
      },
    }).catch((fault) => {
      this.open = undefined;
      throw fault;
    });
    return this.open;
  }
}
