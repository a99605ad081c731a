/** Touches in the log, and lines that ran clear, as calibration takes them. */
import type { Observation } from "../../base/desk/types/calibrate.gen";
import type * as desk from "../../base/desk/types/towline.gen";
import type { Stored } from "../entry/entry";
import { type Folded, foldAll, number, words } from "../entry/fold";
import type { Kinds } from "../spread/learned";

/** Kinds of records, and what was felt of the bottom. */
export const contacts = { touch: "ticks", clear: "clear" } as const;
export type Touching = keyof typeof contacts;
export const touching = Object.keys(contacts) as Touching[];

/** What a record keeps beside its fields, so that any phone can compute with it (server/sync/README.md). */
export interface Asked extends Kinds {
  /** As the field `rod` has it: of another rod it tells nothing. */
  name: string;
  rod: desk.Rod;
  water?: desk.Water;
  /** One standard deviation, m/s. */
  speedDoubt: number;
}

/** Something observed, as calibration takes it. */
export interface Seen {
  id: string;
  /** By its writer's clock, ms. */
  at: number;
  /** Without its age; absent of what does not say how the rod was rigged. */
  seen?: Omit<Observation, "age"> | undefined;
}

/** One contact with the bottom, or none. */
export interface Touch extends Seen {
  record: Folded;
}

/** More than these, the latest, the desk does not take. */
export const most = 100;

/** The latest that are not struck out, the latest first. */
export function touchesIn(entries: Stored[]): Touch[] {
  return foldAll(entries)
    .filter((record) => !record.struck)
    .map((record) => {
      const seen = seenIn(record);
      return { id: record.id, record, at: record.entries[0]?.at ?? 0, ...(seen && { seen }) };
    })
    .sort((a, b) => b.at - a.at);
}

/** What is told of a record may have been amended since; how the rod was rigged may not. */
function seenIn(record: Folded): Omit<Observation, "age"> | undefined {
  const asked = askedIn(record.fields.get("asked")?.value);
  const [bottom, speed, lineOut] = ["bottom", "speed", "lineOut"].map((field) => number(record, field));
  const contact = contacts[record.kind as Touching];
  if (!asked || !contact || bottom === undefined || speed === undefined || lineOut === undefined)
    return undefined;
  if (words(record, "rod") !== asked.name) return undefined;
  const { rod, wire, lure, water, speedDoubt } = asked;
  return {
    kind: contact,
    sea: { speed, bottom, ...(water && { water }) },
    rod: { ...rod, lineOut, rig: withDrail(rod.rig, number(record, "drail")) },
    wire,
    lure,
    speedDoubt,
  };
}

/** The drail as it was amended: at the join, where it hung. */
function withDrail(rig: desk.Rig, drail: number | undefined): desk.Rig {
  if (drail === undefined || drail === (rig.drails?.[0]?.mass ?? 0)) return rig;
  return { ...rig, drails: drail > 0 ? [{ mass: drail, above: rig.leaderLength }] : [] };
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
