/** What was found unreadable and put aside, from earlier starts too: to be told of, and saved to a file. */
import { signal } from "@preact/signals";
import { addAside, dropAside, fetchAside, type PutAside } from "./db";
import { toJson } from "./json";

/** Under this name is kept what failed in the app itself. */
export const failures = "failures";

const all = signal(new Map<number, PutAside>());

/** Why something is aside that somebody changed before it was known what was stored. */
export const tooEarly = "changed before what was stored had been read";

/** Reads what is aside. Without storage there is nothing to show. */
export async function findAside(): Promise<void> {
  all.value = await fetchAside().catch(() => new Map());
}

/** Puts unreadable data aside as it was found. */
export async function putAside(...found: PutAside[]): Promise<void> {
  for (const one of found) await addAside(one);
  await findAside();
}

/** Deletes for good what was put aside of a document. */
export async function clearAside(name: string): Promise<PutAside[]> {
  const gone = of([name]);
  await dropAside(gone.map(([key]) => key));
  await findAside();
  return gone.map(([, one]) => one);
}

/** Names of documents that have something put aside. */
export const namesAside = (): string[] => [...new Set([...all.value.values()].map(({ name }) => name))];

/** Whether nothing else was put aside of a document than what somebody changed too early. */
export function isEarly(name: string): boolean {
  const aside = of([name]);
  return aside.length > 0 && aside.every(([, { why }]) => why === tooEarly);
}

/** All that was put aside of documents, as a file. */
export const asideFile = (names: readonly string[], saved: number): string =>
  toJson({ format: "wirewake-aside", version: 1, saved, aside: of(names).map(([, one]) => one) }, 1);

const of = (names: readonly string[]) => [...all.value].filter(([, one]) => names.includes(one.name));
