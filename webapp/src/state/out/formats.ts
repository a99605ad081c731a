/**
 * A trip in formats that any program reads. The desk writes them, here as at the server, which asks it alike
 * (server/export.go): the shared cases are in calc/formats/testdata.
 */
import { desk } from "../../base/desk/desk";
import type { Event, Field, Format, Note, Point, Query, Rod } from "../../base/desk/types/formats.gen";
import { contract } from "../entry/contract.gen";
import type { Stored } from "../entry/entry";
import { type Folded, foldAll, number, words } from "../entry/fold";
import { book, forgotten } from "../log/log";
import type { Trip } from "../log/one";
import { nameOfPhone } from "../log/signing";
import { tripName } from "../notes/trip-name";
import { give } from "./give";

export const formats = ["gpx", "geojson", "csv", "ics"] as const satisfies Format[];

/** Kinds that say nothing of what was done out there. */
const aboutTheCrew = ["proposal", "tick", "list", "rules", "boat", "briefed"];

/** Kinds that are with a trip and that nobody noted on it one by one. */
const notNoted = ["trip", "person", "photo", "track"];

/** The file is the same whoever makes it, in whatever language the app is. */
const counted = (n: number, what: string): string => `${n} ${what}${n === 1 ? "" : "s"}`;

/** The most that one spread shows, and the longest word of it in bytes. */
const mostRods = 12;
const longestWord = 200;

const seconds = ({ at }: { at: number }): number => at / 1000;
const firstOf = ({ entries }: Folded): number => seconds(entries[0] ?? { at: 0 });

/** An open trip is over after so long without a note, and what is corrected is corrected within a year, s. */
const over = forgotten / 1000;
const corrected = 366 * 86_400;

/** How far times go on from a beginning, without a pause that long: one clock gone mad is not gone by. */
function reached(from: number, times: number[], pause: number): number {
  let last = from;
  for (const at of times.sort((a, b) => a - b)) {
    if (at > last + pause) break;
    last = Math.max(last, at);
  }
  return last;
}

const saidOf = (records: Folded[]): number[] => records.flatMap(({ entries }) => entries.map(seconds));

const ownOf = (records: Folded[], trip: string): Folded | undefined =>
  records.find(({ id, kind }) => id === trip && kind === "trip");

/** From when to when a trip was, s; an open one until the last that was noted in it. */
export function spanOf(records: Folded[], trip: string): [number, number] {
  const own = ownOf(records, trip);
  const said = saidOf(records);
  const earliest = said.reduce((first, at) => Math.min(first, at), said[0] ?? 0);
  const opened = own ? (milliseconds(own, "opened") ?? firstOf(own)) : earliest;
  const begun = records.filter(({ struck }) => !struck).map(firstOf);
  return [opened, (own && milliseconds(own, "closed")) ?? reached(opened, begun, over)];
}

/** What the desk is asked for a trip, by its folded records in their order. */
export function formatsQuery(records: Folded[], trip: string, format: Format): Query {
  const own = ownOf(records, trip);
  const [opened, ended] = spanOf(records, trip);
  const made = reached(opened, saidOf(records), corrected);
  const name = (own && words(own, "name")) || new Date(Math.trunc(opened * 1000)).toISOString().slice(0, 10);
  const told = records.filter(({ struck, kind }) => !struck && !aboutTheCrew.includes(kind));
  const notes = told.map(noteOf);
  if (format === "ics") {
    const marks = notes.filter(({ kind }) => kind === "mark").length;
    const others = notes.filter(({ kind }) => kind !== "mark" && !notNoted.includes(kind)).length;
    const event: Event = {
      id: trip,
      from: opened,
      // A clock that was set back meanwhile makes no trip end before it began.
      to: Math.max(opened, ended),
      name,
      words: `${counted(marks, "mark")}, ${counted(others, "other note")}`,
    };
    return { format, name, made, notes: [], track: [], events: [event] };
  }
  const track = told.flatMap((record, i) => {
    const { placed, time, lat = 0, lon = 0 } = notes[i] as Note;
    return [...(placed ? [{ time, lat, lon }] : []), ...(record.kind === "track" ? pointsOf(record) : [])];
  });
  return { format, name, made, notes, track, events: [] };
}

const milliseconds = (record: Folded, field: string): number | undefined => {
  const ms = number(record, field);
  return ms === undefined ? undefined : ms / 1000;
};

function noteOf(record: Folded): Note {
  const [lat, lon] = [number(record, "lat"), number(record, "lon")];
  const placed = lat !== undefined && lon !== undefined;
  const rods = rodsOf(record);
  const [first] = record.entries;
  const writer = first && writerOf(first);
  return {
    id: record.id,
    kind: record.kind,
    time: firstOf(record),
    placed,
    lat: placed ? lat : 0,
    lon: placed ? lon : 0,
    fields: fieldsOf(record),
    ...(rods.length > 0 && { rods }),
    ...(writer && { writer }),
  };
}

/**
 * Who wrote an entry, and where no mark proves that, who brought it: who is said to have written it may never have seen
 * it.
 */
function writerOf({ own, byName, viaName, mark }: Stored): string | undefined {
  // What this phone was called then, as the server has it; what is not there yet goes under the name of now.
  const who = byName ?? (own ? nameOfPhone() : undefined);
  return viaName && !mark ? `${who ?? ""}, brought by ${viaName}` : who;
}

interface Held {
  is: string;
  unit?: string;
}

/** The fields of a record that a table can hold, by name. */
function fieldsOf(record: Folded): Field[] {
  const kinds: { [kind: string]: { [name: string]: Held } } = contract.kinds;
  const own = Object.hasOwn(kinds, record.kind) ? kinds[record.kind] : {};
  const all: Field[] = [];
  for (const [name, { is, unit }] of Object.entries<Held>({ ...contract.any, ...own })) {
    if (["lat", "lon", "struck"].includes(name)) continue;
    const value = record.fields.get(name)?.value;
    if (["number", "whole", "time"].includes(is)) {
      const x = number(record, name);
      if (x !== undefined)
        all.push(
          is === "time"
            ? { name, is, number: x / 1000 }
            : { name, is: "number", number: x, ...(unit && { unit }) },
        );
    } else if (["line", "text", "sha256", "record"].includes(is)) {
      const text = words(record, name);
      if (text) all.push({ name, is: "text", text });
    } else if (is === "flag" && typeof value === "boolean")
      all.push({ name, is: "text", text: String(value) });
  }
  return all.sort((a, b) => (a.name < b.name ? -1 : 1));
}

const bytes = (word: string): number => new TextEncoder().encode(word).length;

/** The spread of a record as far as it can be read: another phone or version may have written it. */
function rodsOf(record: Folded): Rod[] {
  const raw = record.fields.get("spread")?.value as { rods?: unknown } | undefined;
  const rods = Array.isArray(raw?.rods) ? (raw.rods as Partial<Rod>[]) : [];
  return rods
    .flatMap((one) => {
      const { place, lure, colour, lineOut, drail } = one ?? {};
      const tells = typeof colour === "string" && colour !== "" && bytes(colour) <= longestWord;
      return typeof place === "string" &&
        typeof lure === "string" &&
        typeof lineOut === "number" &&
        typeof drail === "number" &&
        bytes(place) <= longestWord &&
        bytes(lure) <= longestWord
        ? [{ place, lure, ...(tells && { colour }), lineOut, drail }]
        : [];
    })
    .slice(0, mostRods);
}

/** The points of a track that was loaded: s since 1970 and degrees. */
export function pointsOf(record: Folded): Point[] {
  const raw = record.fields.get("points")?.value;
  const within = (x: unknown, min: number, max: number): x is number =>
    typeof x === "number" && x >= min && x <= max;
  return (Array.isArray(raw) ? raw : []).flatMap((one: unknown) => {
    if (!Array.isArray(one) || one.length !== 3) return [];
    const [time, lat, lon] = one as unknown[];
    return within(time, 0, 253402300799) && within(lat, -90, 90) && within(lon, -180, 180)
      ? [{ time, lat, lon }]
      : [];
  });
}

/** Hands a trip to the person in a format. */
export async function giveTrip(trip: Trip, format: Format): Promise<string | undefined> {
  const records = foldAll(await book.entriesOf(trip.parts));
  const { text, type } = await desk.ask("formats", formatsQuery(records, trip.trip, format));
  return give(`${fileName(tripName(trip))}.${format}`, text, type);
}

export const fileName = (name: string): string => name.replace(/[^\p{L}\p{N}]+/gu, "-").toLowerCase();
