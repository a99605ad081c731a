/**
 * The checklists, and the list of what to buy. What the running trip says of a list holds; without a trip, what
 * this phone saw last; and the lists that come with the app until somebody changes them.
 */
import { computed } from "@preact/signals";
import { newId } from "../../base/store/id";
import { Kept } from "../../base/store/kept";
import { list as listShape, record, words } from "../../base/store/shape";
import { text } from "../../base/text/text";
import { type Folded, words as wordsOf } from "../entry/fold";
import { running } from "../log/log";
import { amend, note, strike, unstrike } from "../log/saying/say";
import { firstChecks } from "./first";
import { tripRecords } from "./trip";

export interface List {
  /** What it is known by in the log: a name of first.ts, or an id. */
  list: string;
  /** Empty: it is called as it came. */
  name: string;
  /** Checks of first.ts by name, and others in the words of whoever typed them. */
  items: string[];
}

export const mostItems = 60;
const mostLetters = 200;

/** Lists that somebody changed or made. */
export const keptLists = new Kept<List[]>(
  "lists",
  listShape(record<List>({ list: words, name: words, items: listShape(words, mostItems) }), 100),
  [],
);

/** What is to be bought or mended is a list too, and lasts from trip to trip. */
const toBuy = "buy";

const asItCame = (list: string): List => ({
  list,
  name: "",
  items: Object.hasOwn(firstChecks, list) ? [...firstChecks[list as keyof typeof firstChecks]] : [],
});

const listRecords = (): Folded[] => tripRecords("list") ?? [];

export const listRecord = (list: string): Folded | undefined =>
  listRecords().findLast((one) => wordsOf(one, "list") === list);

/** A list as a record tells it, as far as it can be read. */
function listOf(told: Folded): List | undefined {
  const list = wordsOf(told, "list");
  const items = told.fields.get("items")?.value;
  if (!list || list.length > mostLetters || !Array.isArray(items)) return undefined;
  const readable = items.filter((item) => typeof item === "string" && item.length <= mostLetters);
  return {
    list,
    name: wordsOf(told, "name")?.slice(0, mostLetters) ?? "",
    items: readable.slice(0, mostItems),
  };
}

/** The lists that are not as they came, the trip's before the phone's. */
export const changedLists = computed<List[]>(() => {
  const known = new Map(keptLists.value.map((one) => [one.list, one]));
  for (const told of listRecords()) {
    const one = listOf(told);
    if (one && told.struck) known.delete(one.list);
    else if (one) known.set(one.list, one);
  }
  return [...known.values()];
});

export const listFor = (list: string): List | undefined =>
  changedLists.value.find((one) => one.list === list) ??
  (Object.hasOwn(firstChecks, list) || list === toBuy ? asItCame(list) : undefined);

/** All checklists: those of the app in their order, then one's own. */
export const checklists = computed<List[]>(() => [
  ...Object.keys(firstChecks).map((list) => listFor(list) as List),
  ...changedLists.value.filter(({ list }) => isOwn(list)),
]);

/** Whether somebody made it: then it can be taken away. */
export const isOwn = (list: string): boolean => !Object.hasOwn(firstChecks, list) && list !== toBuy;

export const isAsItCame = ({ list, items, name }: List): boolean =>
  name === "" && items.join("\n") === asItCame(list).items.join("\n");

export const listName = ({ list, name }: List): string =>
  name || text.crew.lists[list] || text.crew.list.unnamed;

export const checkWords = (item: string): string =>
  (Object.hasOwn(text.crew.checks, item) && text.crew.checks[item]) || item;

/** Saves a list on this phone, and in the trip if one runs. */
export function setList(next: List): void {
  keptLists.set([...keptLists.value.filter((one) => one.list !== next.list), next]);
  const told = listRecord(next.list);
  if (told) amend(told, { name: next.name, items: next.items, ...(told.struck && { struck: false }) });
  else if (running.value) note("list", { ...next });
}

export function makeList(): List {
  const made = { list: newId(), name: "", items: [] };
  setList(made);
  return made;
}

export const backAsItCame = ({ list }: List): void => setList(asItCame(list));

/** Takes a list away; returns the way back. */
export function dropList(gone: List): () => void {
  const told = listRecord(gone.list);
  keptLists.set(keptLists.value.filter((one) => one.list !== gone.list));
  if (told) strike(told);
  return () => {
    keptLists.set([...keptLists.value, gone]);
    if (told) unstrike(told);
  };
}

/** An item up or down by one place. */
export function moved(items: string[], from: number, by: 1 | -1): string[] {
  const to = from + by;
  if (to < 0 || to >= items.length) return items;
  const next = [...items];
  next.splice(to, 0, ...next.splice(from, 1));
  return next;
}

export const shopping = (): List => listFor(toBuy) as List;

export function putOnShopping(what: string): void {
  const now = shopping();
  if (!now.items.includes(what)) setList({ ...now, items: [...now.items, what].slice(-mostItems) });
}
