/**
 * What the boat's server kept of the instruments on each trip: brought to this phone when somebody of the crew looks at the
 * trip, and kept here.
 */
import type { DBSchema } from "idb";
import { Connection } from "../../base/store/connection";
import { you } from "../log/log";
import { hashOf } from "../photos/shrink";
import { type Row, readTrace } from "./read";

interface Shelf extends DBSchema {
  /** By TRIP/SHA256. */
  traces: { key: string; value: Uint8Array<ArrayBuffer> };
}

const shelf = new Connection<Shelf>("wirewake-traces", 1, (db) => {
  db.createObjectStore("traces");
});

/** TRIP/SHA256 of all that are here. */
export const traceNames = (): Promise<string[]> => shelf.using((db) => db.getAllKeys("traces"));
export const traceOf = (name: string): Promise<Uint8Array<ArrayBuffer> | undefined> =>
  shelf.using((db) => db.get("traces", name));

const name = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}\/[0-9a-f]{64}$/;

/** Keeps one that is what its name says; false: it is not. */
export async function keepTrace(of: string, bytes: Uint8Array<ArrayBuffer>): Promise<boolean> {
  const whole = bytes.slice();
  if (!name.test(of) || (await hashOf(whole.buffer)) !== of.slice(-64)) return false;
  await shelf.using((db) => db.put("traces", whole, of));
  return true;
}

/**
 * Brings what the server has of these trips and this phone has not, and the other way round: a server may have been put back
 * from a copy, and a phone may have a file of another. Out of its reach, on a guest's phone and where the storage is
 * full, what is here is all, and what is lacking comes the next time. patience: ms that the server may take for all of it.
 */
export async function bringTraces(trips: string[], patience = 60_000): Promise<void> {
  if (!you.value?.may.includes("trips")) return;
  const signal = AbortSignal.timeout(patience);
  const ask = (path: string, more: RequestInit = {}) => fetch(`/api/traces${path}`, { ...more, signal });
  try {
    const { traces } = (await (await ask("")).json()) as { traces: { trip: string; sha256: string }[] };
    const here = await traceNames();
    for (const { trip, sha256 } of traces) {
      const of = `${trip}/${sha256}`;
      if (trips.includes(trip) && !here.includes(of))
        await keepTrace(of, new Uint8Array(await (await ask(`/${of}`)).arrayBuffer()));
    }
    const there = new Set(traces.map(({ trip, sha256 }) => `${trip}/${sha256}`));
    const headers = { "Content-Type": "application/octet-stream" };
    for (const of of here) {
      const body = !there.has(of) && trips.includes(of.slice(0, 36)) && (await traceOf(of));
      if (body) await ask(`/${of}`, { method: "PUT", headers, body });
    }
  } catch {
    // An older server has none.
  }
}

/** All rows of these trips that are here, in order, each second once. */
export async function rowsOf(trips: string[]): Promise<Row[]> {
  const rows = new Map<number, Row>();
  for (const of of await traceNames()) {
    if (!trips.includes(of.slice(0, 36))) continue;
    for (const row of readTrace((await traceOf(of)) ?? new Uint8Array()) ?? []) rows.set(row.at, row);
  }
  return [...rows.values()].sort((a, b) => a.at - b.at);
}

/** What is drawn of it. */
export interface Sounded {
  /** Degrees. */
  spots: { at: number; lat: number; lon: number }[];
  /** m. */
  depths: { at: number; depth: number }[];
}

/** The drawing has room for about so many. */
const most = 600;
const degree = Math.PI / 180;

/** Thinned to what a drawing can show: of each while the middle one of the depths, and the first place. */
export function thinned(rows: Row[]): Sounded {
  const drawn: Sounded = { spots: [], depths: [] };
  const first = rows[0]?.at ?? 0;
  const step = Math.max(5000, ((rows.at(-1)?.at ?? 0) - first) / most);
  const whiles: Row[][] = [];
  for (const row of rows) {
    const index = Math.floor((row.at - first) / step);
    whiles[index] ??= [];
    whiles[index].push(row);
  }
  for (const some of whiles.filter(Boolean)) {
    const at = some[0]?.at ?? 0;
    const depths = some.flatMap(({ values: [depth] }) => depth ?? []).sort((a, b) => a - b);
    const depth = depths[depths.length >> 1];
    if (depth !== undefined) drawn.depths.push({ at, depth });
    const placed = some.find(({ values }) => values[6] !== undefined && values[7] !== undefined);
    const [lat, lon] = placed?.values.slice(6) ?? [];
    if (placed && lat !== undefined && lon !== undefined)
      drawn.spots.push({ at: placed.at, lat: lat / degree, lon: lon / degree });
  }
  return drawn;
}
