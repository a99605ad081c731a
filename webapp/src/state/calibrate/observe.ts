/** What the log has observed of lines: touches, lines that ran clear, and what was taught; as calibration takes it. */
import type { Kind, Observation } from "../../base/desk/types/calibrate.gen";
import type * as desk from "../../base/desk/types/towline.gen";
import type { Stored } from "../entry/entry";
import { type Folded, foldAll, number, words } from "../entry/fold";
import { isCrews } from "../log/whose";
import type { Kinds } from "../spread/learned";

/** Kinds of records, and what was felt of the bottom. */
export const contacts = { touch: "ticks", clear: "clear" } as const;
export type Touching = keyof typeof contacts;
export const touching = Object.keys(contacts) as Touching[];

/** The kind of records of what skipper or mate knew without a touch, and what is read of a line besides its depth. */
export const taughtKind = "taught";
const readings = ["angle", "entry", "pull"] as const satisfies Kind[];

/** What a record keeps beside its fields, so that any phone can compute with it (server/sync/README.md). */
export interface Asked extends Kinds {
  /** As the field `rod` has it: of another rod it tells nothing. */
  name: string;
  rod: desk.Rod;
  water?: desk.Water;
  /** One standard deviation, m/s. */
  speedDoubt: number;
  /** The depth of water and the rig were those that the app begins with: nobody had set them. */
  begun?: boolean;
  /** Of the reading of what was taught, in its unit; 0: the usual. */
  readingDoubt?: number;
}

/** Something observed, as calibration takes it. */
export interface Seen {
  id: string;
  /** By its writer's clock, ms. */
  at: number;
  /** Without its age; absent of what does not say how the rod was rigged. */
  seen?: Omit<Observation, "age"> | undefined;
}

/** One of the log: a contact with the bottom, or none; or what was taught. */
export interface Noted extends Seen {
  record: Folded;
}
export type Touch = Noted;

/** The desk takes no more than so many: the latest. */
export const most = 100;

/** Those that are not struck out, the latest first. */
export const notedIn = (entries: Stored[]): Noted[] => notedOf(foldAll(entries));

/** The same of records. */
export function notedOf(records: Folded[]): Noted[] {
  return records
    .filter((record) => !record.struck)
    .map((record) => {
      const seen = seenIn(record);
      const at = number(record, "was") ?? record.entries[0]?.at ?? 0;
      return { id: record.id, record, at, ...(seen && { seen }) };
    })
    .sort((a, b) => b.at - a.at);
}

/** So near in time two people felt the same touch, ms. */
export const together = 3 * 60_000;

/** Two depths, lengths or speeds that differ by less, as a part of the greater, are the same to two people. */
const alike = 0.1;

/**
 * Whether one waits for somebody to look at it. Another's of the crew does if it was noted at the depth and on the rig that
 * the app begins with, and nobody has set them for it since; a guest's whatever it says, until one of the crew has said its
 * depth and no guest anything after. Neither waits if one of the crew felt the same.
 */
export function isGuess(one: Noted, all: Noted[]): boolean {
  const { record } = one;
  const [first] = record.entries;
  if (!first || first.own) return false;
  const guests = !isCrews(first);
  const waits = guests ? !isTaken(record) : isBegun(record, first);
  return waits && !all.some((other) => isFeltToo(other, one) && (!guests || isTheSame(other, one)));
}

function isTaken({ entries }: Folded): boolean {
  const said = entries.findLastIndex((entry) => entry.set?.bottom !== undefined && isCrews(entry));
  return said >= 0 && entries.slice(said).every(isCrews);
}

function isBegun(record: Folded, first: Stored): boolean {
  const asked = record.fields.get("asked");
  const begun = (asked?.value as Partial<Asked> | null)?.begun === true;
  return begun && record.fields.get("bottom")?.from.id === first.id && asked?.from.id === first.id;
}

/** One of the crew, or this phone, noted the same of the same rod at about the same time. */
function isFeltToo({ record, at }: Noted, { record: of, at: then }: Noted): boolean {
  const [first] = record.entries;
  return (
    first !== undefined &&
    (first.own || isCrews(first)) &&
    first.by !== of.entries[0]?.by &&
    record.kind === of.kind &&
    words(record, "rod") === words(of, "rod") &&
    Math.abs(at - then) < together
  );
}

/** A guest's word adds nothing to what it agrees with; what it says besides would be the guest's alone. */
function isTheSame({ record, seen }: Noted, { record: of, seen: other }: Noted): boolean {
  const near = ["bottom", "lineOut", "speed"].every((field) => {
    const [a, b] = [number(record, field), number(of, field)];
    return a !== undefined && b !== undefined && Math.abs(a - b) <= alike * Math.max(a, b);
  });
  return near && seen?.wire === other?.wire && seen?.lure === other?.lure;
}

/** What is told of a record may have been amended since; how the rod was rigged may not. */
function seenIn(record: Folded): Omit<Observation, "age"> | undefined {
  const asked = askedIn(record.fields.get("asked")?.value);
  const [bottom, speed, lineOut] = ["bottom", "speed", "lineOut"].map((field) => number(record, field));
  if (!asked || speed === undefined || lineOut === undefined || words(record, "rod") !== asked.name)
    return undefined;
  const kind = contacts[record.kind as Touching] ?? readingOf(record) ?? "known";
  const read = number(record, kind);
  if (bottom === undefined && read === undefined) return undefined;
  const { rod, wire, lure, water, speedDoubt, readingDoubt } = asked;
  return {
    kind,
    sea: { speed, ...(read === undefined && bottom !== undefined && { bottom }), ...(water && { water }) },
    rod: { ...rod, lineOut, rig: weighted(rod.rig, number(record, "drail"), number(record, "sinker")) },
    wire,
    lure,
    speedDoubt,
    ...(read !== undefined && { [kind]: read }),
    ...(typeof readingDoubt === "number" && { readingDoubt }),
  };
}

/** What was read of the line, where it is not the depth in which it ticks. */
export const readingOf = (record: Folded) =>
  readings.find((reading) => number(record, reading) !== undefined);

/** Weights as they were amended: the drail at the join, where it hung, the sinker on its dropper. */
function weighted(rig: desk.Rig, drail: number | undefined, sinker: number | undefined): desk.Rig {
  const amended = { ...rig };
  if (drail !== undefined && drail !== (rig.drails?.[0]?.mass ?? 0))
    amended.drails = drail > 0 ? [{ mass: drail, above: rig.leaderLength }] : [];
  if (rig.dropper && sinker) amended.dropper = { ...rig.dropper, sinker };
  return amended;
}

/** Only what is asked of every request: the desk judges the rest. */
function askedIn(raw: unknown): Asked | undefined {
  const { name, rod, wire, lure, speedDoubt } = (raw ?? {}) as Partial<Asked>;
  const told = [name, wire, lure].every((word) => typeof word === "string");
  return told && typeof rod === "object" && rod !== null && typeof speedDoubt === "number"
    ? (raw as Asked)
    : undefined;
}

/** With the age of each; a clock set back since then tells nothing of it. */
export const observations = (seen: Seen[], now: number): Observation[] =>
  seen.flatMap(({ seen, at }) => (seen ? [{ ...seen, age: Math.max(0, now - at) / 1000 }] : []));
