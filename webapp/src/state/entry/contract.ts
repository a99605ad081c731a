/**
 * What an entry may hold, as server/sync/README.md tells it: the server judges by the same schema, and both by the
 * same cases (server/log/contract/entries.json). What it takes, this phone can hold and show.
 */
import { contract } from "./contract.gen";
import type { Entry, Fields } from "./entry";
import { isUuid } from "./uuid";

/** What a phone may do besides what all may; told by the server. */
export const rights = ["trips", "crew", "invite", "phones"] as const;
export type Right = (typeof rights)[number];

export type Role = keyof typeof contract.roles;

/** Roles that this app knows; a server may know others. */
export const roles = Object.keys(contract.roles) as Role[];

/** Rights of a role; of one that is not known, the least. */
export const rightsOf = (role: string): Right[] =>
  Object.hasOwn(contract.roles, role) ? ([...contract.roles[role as Role]] as Right[]) : [];

/** What the value of a field may be, besides null. */
interface Field {
  is: string;
  min?: number;
  max?: number;
  most?: number;
  items?: number;
}

type Table = { [name: string]: Field };

function fieldOf(kind: string, name: string): Field | undefined {
  const kinds: { [kind: string]: Table } = contract.kinds;
  const own = Object.hasOwn(kinds, kind) ? (kinds[kind] as Table) : {};
  const any: Table = contract.any;
  return Object.hasOwn(own, name) ? own[name] : Object.hasOwn(any, name) ? any[name] : undefined;
}

const isRecord = (raw: unknown): raw is Fields =>
  typeof raw === "object" && raw !== null && !Array.isArray(raw);

export const isName = (raw: unknown, most: number): raw is string =>
  typeof raw === "string" &&
  raw.length <= most &&
  /^[a-z][A-Za-z0-9]*$/.test(raw) &&
  !contract.reserved.includes(raw);

/** Counts characters, not halves of pairs. */
const lengthOf = (text: string): number => [...text].length;

const spans = (ranges: number[][]): RegExp =>
  new RegExp(
    `[${ranges.map(([from, to]) => `\\u{${Number(from).toString(16)}}-\\u{${Number(to).toString(16)}}`).join("")}\\p{Surrogate}]`,
    "gu",
  );

const hidden = { text: spans(contract.hidden.text), line: spans(contract.hidden.line) };

const has = (text: string, what: RegExp): boolean => text.search(what) >= 0;

/** A text without what a text, or a line, may not hold. */
export const plainText = (text: string): string => text.replace(hidden.text, "");
export const plainLine = (text: string): string => text.replace(/[\n\t]+/g, " ").replace(hidden.line, "");

/** Whether it can be the name of a phone. */
export const isPhoneName = (name: string): boolean =>
  name.trim() !== "" && lengthOf(name) <= contract.entry.name && !has(name, hidden.line);

/** What is wrong with a value of a field; undefined: nothing. */
function faultOfField(kind: string, name: string, value: unknown): string | undefined {
  const fault = faultOfValue(value, contract.value.depth);
  const field = fieldOf(kind, name);
  if (fault || !field || (value === null && name !== "struck")) return fault;
  return holds(field, value) ? undefined : `has no ${field.is} for ${name}`;
}

function holds(field: Field, value: unknown): boolean {
  switch (field.is) {
    case "number":
    case "whole":
    case "time": {
      const { min, max } =
        field.is === "time" ? contract.entry.time : { min: field.min ?? 0, max: field.max ?? 0 };
      return (
        typeof value === "number" &&
        value >= min &&
        value <= max &&
        (field.is === "number" || Number.isInteger(value))
      );
    }
    case "flag":
      return typeof value === "boolean";
    case "line":
    case "text":
      return (
        typeof value === "string" &&
        lengthOf(value) <= (field.most ?? 0) &&
        !(field.is === "line" && has(value, hidden.line))
      );
    case "lines":
      return (
        Array.isArray(value) &&
        value.length <= (field.items ?? 0) &&
        value.every((one) => holds({ ...field, is: "line" }, one))
      );
    case "sha256":
      return typeof value === "string" && /^[0-9a-f]{64}$/.test(value);
    case "record":
      return isUuid(value);
    case "fields":
      return isRecord(value) && Object.keys(value).length > 0;
    default:
      return true;
  }
}

/** What holds of every value: how deep it is, its names, numbers and texts. */
function faultOfValue(value: unknown, depth: number): string | undefined {
  if (typeof value === "string") return has(value, hidden.text) ? "holds a character of control" : undefined;
  if (typeof value === "number")
    return Math.abs(value) <= contract.value.number ? undefined : "holds a number too great";
  if (typeof value !== "object" || value === null) return undefined;
  if (depth === 0) return "holds lists too deep in each other";
  const names = Array.isArray(value) ? [] : Object.keys(value);
  if (!names.every((name) => isName(name, contract.entry.field))) return "holds a field that has no name";
  for (const one of Object.values(value)) {
    const fault = faultOfValue(one, depth - 1);
    if (fault) return fault;
  }
  return undefined;
}

/** This phone's clock, as it is or was, as far as a clock can be told. */
export const momentOf = (at = Date.now()): number =>
  Math.min(Math.max(at, contract.entry.time.min), contract.entry.time.max);

const isWhole = (raw: unknown, { min, max }: { min: number; max: number }): boolean =>
  Number.isInteger(raw) && (raw as number) >= min && (raw as number) <= max;

/** What is wrong with what an entry says; undefined: nothing. Of its size see entry.ts. */
export function faultOfContent(raw: unknown): string | undefined {
  if (!isRecord(raw)) return "is not a record";
  const { id, record, kind, trip, prev, set, strike, at, n } = raw;
  for (const [name, one] of Object.entries({ id, record, trip }))
    if (!isUuid(one)) return `has no UUID for ${name}`;
  if (!/^.{14}7/.test(id as string)) return "has an id of another version";
  if (!Array.isArray(prev) || prev.length > contract.entry.prev || !prev.every(isUuid))
    return "has a prev that is no list of UUIDs";
  if (!isName(kind, contract.entry.kind)) return "has no word for kind";
  if ((kind === "trip") !== (record === trip)) return "is not what its trip says of itself";
  if (!isWhole(at, contract.entry.time)) return "has no time for at";
  if (!isWhole(n, contract.entry.n)) return "has no count for n";
  if ((set === undefined) === (strike === undefined)) return "has not exactly one of set and strike";
  if (strike !== undefined) return strike === true ? undefined : "has a strike that is not true";
  if (!isRecord(set)) return "sets nothing";
  return faultOfFields(kind, set);
}

/** What is wrong with the fields of a kind, at least one; undefined: nothing. */
export function faultOfFields(kind: string, set: Fields): string | undefined {
  if (Object.keys(set).length === 0) return "sets nothing";
  for (const [name, value] of Object.entries(set)) {
    const fault = isName(name, contract.entry.field)
      ? faultOfField(kind, name, value)
      : "sets a field that has no name";
    if (fault) return fault;
  }
  return undefined;
}

/** Whether nobody proposes this of a record: only the crew says it, or it stands as it was begun. */
export function isSettled(kind: string, name: string): boolean {
  const guarded: { [kind: string]: object } = contract.guarded;
  const settled: { [kind: string]: string[] } = contract.settled;
  return (
    (Object.hasOwn(guarded, kind) && Object.hasOwn(guarded[kind] as object, name)) ||
    (Object.hasOwn(settled, kind) && (settled[kind] as string[]).includes(name))
  );
}

/** Fields as they can be written: without what no field may hold, and within its bounds. */
export function fitting(kind: Entry["kind"], set: Fields): Fields {
  const fitted: Fields = {};
  for (const [name, value] of Object.entries(set)) {
    if (value !== undefined) fitted[name] = fittedValue(fieldOf(kind, name), value);
  }
  return fitted;
}

const cut = (text: string, most: number): string =>
  lengthOf(text) <= most ? text : [...text].slice(0, most).join("");

function fittedValue(field: Field | undefined, value: unknown): unknown {
  if (typeof value === "number") {
    if (!Number.isFinite(value)) return null;
    const most = contract.value.number;
    const { min, max } =
      field?.is === "time" ? contract.entry.time : { min: field?.min ?? -most, max: field?.max ?? most };
    const bounded = Math.min(Math.max(value, min), max);
    return field?.is === "time" || field?.is === "whole" ? Math.round(bounded) : bounded;
  }
  if (typeof value === "string") {
    if (field?.is === "line" || field?.is === "lines") return cut(plainLine(value), field.most ?? 0);
    return field?.most ? cut(plainText(value), field.most) : plainText(value);
  }
  if (Array.isArray(value))
    return value.map((one) => fittedValue(field?.is === "lines" ? field : undefined, one));
  if (isRecord(value))
    return Object.fromEntries(
      Object.entries(value).flatMap(([name, one]) =>
        one === undefined ? [] : [[name, fittedValue(undefined, one)]],
      ),
    );
  return value;
}
