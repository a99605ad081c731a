/** What of this phone's the boat's server has not got. */
import type { IDBPTransaction } from "idb";
import type { Stored } from "../../entry/entry";
import {
  firstCursor,
  type LogSchema,
  logOf,
  type MetaKey,
  type MetaOf,
  metaIn,
  type Shipment,
  type You,
} from "./db";
import { never, ofTrip } from "./outbox";
import type { Summary } from "./summary";

/** What the server has not got of what this phone has: each entry without a number, and each photo not whole there. */
export interface Standing {
  /** Waiting to be sent. */
  unsent: number;
  refused: Stored[];
  /** Kept on this phone only because somebody chose so. */
  kept: Stored[];
  /** Of trips that the server takes nothing of from this phone: a guest's own, or one that it is no guest of any more. */
  held: Stored[];
  photos: Shipment[];
  heldPhotos: Shipment[];
}

/** All of it together; only when this is 0 everything is on the boat's server. */
export const countOf = ({ unsent, refused, kept, held, photos, heldPhotos }: Standing): number =>
  unsent + refused.length + kept.length + held.length + photos.length + heldPhotos.length;

/** The only trips that this phone sees, if it is not all of them. */
export const guestTrips = (you: MetaOf<MetaKey> | undefined): string[] | undefined => {
  const known = you as You | undefined;
  if (!known || known.may.includes("trips")) return undefined;
  return [...new Set([known.trip ?? "", ...(known.trips ?? [])])];
};

export const counted: ("entries" | "trips" | "shipments" | "meta")[] = [
  "entries",
  "trips",
  "shipments",
  "meta",
];
export type Reading = IDBPTransaction<LogSchema, typeof counted, "readonly">;

/**
 * Whether the server misses what it takes nothing of from this phone. What others wrote and once had a number here is
 * theirs, and on the server; so is this phone's own in the same log.
 */
const isMissing = ({ out, own, once }: Stored, log: string): boolean =>
  out?.[0] === never || (own === true && once !== log);

/** All that the server has not taken, of all trips. */
export async function unsentIn(tx: Reading): Promise<Stored[]> {
  const only = guestTrips(await tx.objectStore("meta").get("you"));
  const log = logOf((await metaIn(tx, "cursor", firstCursor)).epoch);
  const entries = tx.objectStore("entries");
  const [out, refused, kept] = await Promise.all([
    entries.index("out").getAll(),
    entries.index("refused").getAll(),
    entries.index("kept").getAll(),
  ]);
  const due = out.filter((entry) => !only || only.includes(entry.trip) || isMissing(entry, log));
  return [...due, ...refused, ...kept];
}

export async function standingIn(tx: Reading, known?: Summary[]): Promise<Standing> {
  const only = guestTrips(await tx.objectStore("meta").get("you"));
  const log = logOf((await metaIn(tx, "cursor", firstCursor)).epoch);
  const entries = tx.objectStore("entries");
  const [trips, refused, kept, photos] = await Promise.all([
    known ?? tx.objectStore("trips").getAll(),
    entries.index("refused").getAll(),
    entries.index("kept").getAll(),
    tx.objectStore("shipments").index("out").getAll(),
  ]);
  const isDue = ({ trip }: { trip: string }) => !only || only.includes(trip);
  // They may be many: each trip has their count, and only those that are not due are read.
  const unsent = trips.filter(isDue).reduce((sum, trip) => sum + trip.unsent, 0);
  const notDue = trips.filter((trip) => !isDue(trip) && trip.unsent > 0);
  const others = await Promise.all(notDue.map(({ trip }) => entries.index("outOfTrip").getAll(ofTrip(trip))));
  return {
    unsent,
    refused,
    kept,
    held: others.flat().filter((entry) => isMissing(entry, log)),
    photos: photos.filter(isDue),
    heldPhotos: photos.filter((photo) => !isDue(photo)),
  };
}
