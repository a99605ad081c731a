/** The boat's own particulars, typed once: for the radio and the float plan. Kept on the phone, shared with the trip. */
import { computed } from "@preact/signals";
import { Kept } from "../../base/store/kept";
import { number, record, words } from "../../base/store/shape";
import { type Folded, number as numberOf, words as wordsOf } from "../entry/fold";
import { running } from "../log/log";
import { amend, note } from "../log/saying/say";
import { tripRecords } from "./trip";

export interface Boat {
  name: string;
  callSign: string;
  /** As painted on the bow, or the number of the document. */
  registration: string;
  /** Nine digits. */
  mmsi: string;
  /** m; 0: not told. */
  length: number;
  /** What sort of boat it is, and its hull. */
  type: string;
  hull: string;
  /** As many as are aboard as a rule; a trip with people counts those. */
  people: number;
  /** Where it fishes as a rule; a trip may have another. */
  ground: string;
  /** What is aboard for the worst day. */
  safety: string;
  phone: string;
  /** The skipper's own limits: wind with gusts in m/s, sea and sight in m. 0: not told. */
  mostWind: number;
  mostSea: number;
  leastSight: number;
}

export const unknownBoat: Boat = {
  name: "",
  callSign: "",
  registration: "",
  mmsi: "",
  length: 0,
  type: "",
  hull: "",
  people: 0,
  ground: "",
  safety: "",
  phone: "",
  mostWind: 0,
  mostSea: 0,
  leastSight: 0,
};

const limits = ["mostWind", "mostSea", "leastSight"] as const satisfies (keyof Boat)[];

export const keptBoat = new Kept<Boat>(
  "boat",
  record<Boat>(
    {
      name: words,
      callSign: words,
      registration: words,
      mmsi: words,
      length: number,
      type: words,
      hull: words,
      people: number,
      ground: words,
      safety: words,
      phone: words,
      mostWind: number,
      mostSea: number,
      leastSight: number,
    },
    { registration: "", mostWind: 0, mostSea: 0, leastSight: 0 },
  ),
  unknownBoat,
);

export const boatRecord = (): Folded | undefined => tripRecords("boat")?.findLast((one) => !one.struck);

/** The limits that are known here and that a record says nothing of: an older app wrote it. */
export const untoldLimits = (told: Folded): Partial<Boat> =>
  Object.fromEntries(
    limits.flatMap((name) => {
      const known = keptBoat.value[name];
      return known > 0 && !told.fields.has(name) ? [[name, known]] : [];
    }),
  );

/** A boat as a record tells it: another phone or version may have written it. */
export function boatOf(told: Folded): Boat {
  const boat: Boat = { ...unknownBoat, ...untoldLimits(told) };
  for (const field of Object.keys(unknownBoat) as (keyof Boat)[]) {
    const said =
      typeof unknownBoat[field] === "number" ? numberOf(told, field) : wordsOf(told, field)?.slice(0, 200);
    if (said !== undefined) Object.assign(boat, { [field]: said });
  }
  return boat;
}

/** What the running trip says of the boat; else what this phone knows of it. */
export const boat = computed<Boat>(() => {
  const told = boatRecord();
  return told ? boatOf(told) : keptBoat.value;
});

export function setBoat(patch: Partial<Boat>): void {
  const next = { ...boat.value, ...patch };
  keptBoat.set(next);
  const told = boatRecord();
  if (told) amend(told, patch);
  else if (running.value) note("boat", { ...next });
}
