/** A record of the log in words. */

import { limits } from "../../base/desk/types/current.gen";
import { apart } from "../../base/text/apart";
import { bare } from "../../base/text/spoken/bare";
import { fromDesk, text } from "../../base/text/text";
import { about, amount } from "../../base/units/show";
import { course, moment, place } from "../../base/units/when";
import { checkWords } from "../crew/lists";
import { plainLine } from "../entry/contract";
import type { Refusal, Stored } from "../entry/entry";
import { type Folded, number } from "../entry/fold";
import { rodWords, spoonWords } from "../gear/names";
import { isGuestsPhone } from "../log/whose";
import { type Field, kinds } from "./kinds";
import { spreadIn } from "./snapshot";

const t = text.notes;

export const kindName = (kind: string): string => t.kinds[kind] ?? t.unknownKind(kind);

export const fieldName = (field: string): string => t.fields[field] ?? field;

/** The usual words of a field, to choose from. */
export const choicesOf = (field: string): { value: string; name: string }[] =>
  Object.entries(t.choices[field] ?? {}).map(([value, name]) => ({ value, name }));

/** The usual word for a value, where it has one. */
export const choiceName = (field: string, value: string): string => t.choices[field]?.[value] ?? value;

/** A field of a kind; of a kind or with a field that only a newer app knows, what other kinds have under that name. */
function fieldOf(kind: string, name: string): Field | undefined {
  const own = kinds[kind]?.find((field) => field.name === name);
  return own ?? byName.get(name);
}

/** The first of each name. */
const byName = new Map(
  Object.values(kinds)
    .flat()
    .reverse()
    .map((field) => [field.name, field]),
);

/** Numbers that say by themselves what they are. */
const plain = ["length", "speed", "count", "beat"];

/** Numbers that are moments. */
const times = ["opened", "closed", "bled", "iced", "went", "fixed", "ended", "was"];

/** A value as it is read; empty where there is nothing to say. */
export function valueWords(kind: string, name: string, value: unknown): string {
  if (value === null || value === undefined || value === "") return "";
  if (times.includes(name)) return typeof value === "number" ? moment(value) : "";
  if (name === "spread") {
    const spread = spreadIn(value);
    return spread ? t.lines(spread.rods.length) : "";
  }
  const field = fieldOf(kind, name);
  if (typeof value === "number") {
    if (field?.as === "number") return amount(field.quantity, value);
    if (field?.as === "course") return course(value);
    if (field?.as === "count") return amount("count", value);
  }
  if (name === "items" && Array.isArray(value))
    return value.map((item) => apart(checkWords(String(item)))).join("; ");
  if (name === "item" && typeof value === "string") return apart(checkWords(value));
  if (name === "list" && typeof value === "string") return text.crew.lists[value] ?? "";
  if (typeof value === "boolean") return value ? t.checks.done : t.checks.open;
  if (name === "waters" && typeof value === "string") return apart(fromDesk(value));
  if (field?.as === "rod" && typeof value === "string") return apart(rodWords(value));
  if (field?.as === "spoon" && typeof value === "string") return apart(spoonWords(value));
  if (typeof value === "string")
    return apart(field?.as === "choice" ? choiceName(name, value) : field ? value : plainLine(value));
  return apart(plainLine(JSON.stringify(value)));
}

/** Fields to tell where they are not those that are asked. */
const shown = bare<{ [kind: string]: string[] }>({
  tick: ["item", "done"],
  briefed: ["person", "done"],
  list: ["list", "name", "items"],
  lines: ["rod", "lineOut", "drail", "spread"],
});

/** All there is to say of a record, in one line. */
export function recordWords(record: Folded): string {
  const { kind, fields } = record;
  const known = kinds[kind]?.map((field) => field.name) ?? [];
  const told = shown[kind] ?? known;
  return (kinds[kind] ? told : [...fields.keys()])
    .map((name) => {
      const words = valueWords(kind, name, fields.get(name)?.value);
      const labelled = ["number", "course"].includes(fieldOf(kind, name)?.as ?? "") && !plain.includes(name);
      return words && labelled ? `${fieldName(name).toLowerCase()} ${words}` : words;
    })
    .filter(Boolean)
    .join(", ");
}

/** A place worse than this, m, is told with how bad: the same fixes tell no speed. */
const poorest = limits.Motion.poorest.default;

/** Where it was noted, and how the boat moved. */
export function positionWords(record: Folded): string[] {
  const [lat, lon, accuracy = 0, sog, cog, age] = ["lat", "lon", "accuracy", "sog", "cog", "fixAge"].map(
    (name) => number(record, name),
  );
  const doubt = accuracy > poorest ? ` ±\u202f${about("depth", accuracy, 1)}` : "";
  const all: string[] = [];
  if (lat !== undefined && lon !== undefined) all.push(place(lat, lon) + doubt);
  if (sog !== undefined)
    all.push(t.moving(about("speed", sog, 0.1), cog === undefined ? undefined : course(cog)));
  if (age !== undefined && age >= 60) all.push(t.fixAge(String(Math.round(age / 60))));
  return all;
}

/** Who wrote an entry; of a guest that it is one, whatever its name says. */
export function writerWords({ own, by, byName, via, viaName, no }: Stored): string {
  if (own) return t.record.me;
  const isSent = no !== undefined;
  const named = (name: string, phone: string | undefined, spoke: boolean) =>
    isGuestsPhone(phone, spoke) ? t.record.guest(name) : name;
  const who = named(apart(byName || t.record.someone), by, isSent && via === undefined);
  return viaName ? t.record.brought(who, named(apart(viaName), via, isSent)) : who;
}

/** Who wrote an entry, and when. */
export const whoWhen = (entry: Stored): string => t.record.by(writerWords(entry), moment(entry.at));

/** Why the server did not take it. */
export const refusalWords = ({ code, why }: Refusal): string =>
  text.exchange.refusals[code] || why || text.exchange.clash;

/** When a record was first noted, by its writer's clock. */
export const timeOf = (record: Folded): number => record.entries[0]?.at ?? 0;
