/** This phone's key, and its mark on what it wrote. */
import { text } from "../../base/text/text";
import type { Stored } from "../entry/entry";
import { deviceOf, type Key, makeKey, markOf } from "../entry/mark";
import { book, you } from "./log";

/** This phone's key; it is made when it is first needed. Undefined where the browser makes none. */
export async function keyOfPhone(): Promise<Key | undefined> {
  const kept = await book.meta("key");
  if (kept) return kept;
  const key = await makeKey();
  if (key) await book.setMeta("key", key);
  return key;
}

/** What this phone is called now in what it hands on. */
export const nameOfPhone = (): string => you.value?.name ?? text.notes.record.someone;

/** The same entries, this phone's own with its name and mark, so that others can bring them. */
export async function marked(entries: Stored[], key: Key | undefined): Promise<Stored[]> {
  if (!key) return entries;
  const by = await deviceOf(key);
  const byName = nameOfPhone();
  return Promise.all(
    entries.map(async (entry) =>
      entry.own && !entry.unreadable
        ? { ...entry, by, byName, mark: await markOf(key, byName, entry) }
        : entry,
    ),
  );
}
