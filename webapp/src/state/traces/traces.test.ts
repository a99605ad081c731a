import { readFileSync } from "node:fs";
import { join } from "node:path";
import { IDBFactory } from "fake-indexeddb";
import "fake-indexeddb/auto";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { you } from "../log/log";
import { hashOf } from "../photos/shrink";
import { readTrace } from "./read";
import { bringTraces, keepTrace, rowsOf, thinned, traceNames } from "./traces";

const file = (ending: string) =>
  readFileSync(join(import.meta.dirname, `../../../../server/sync/traces/testdata/trace.${ending}`));
const bytes = new Uint8Array(file("bin"));
const told = JSON.parse(file("json").toString()) as (number | null)[][];
const trip = "0191f3a2-5e7c-7b1a-9d3e-2f4c6a8b0d1e";

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
});
afterEach(() => {
  vi.unstubAllGlobals();
  you.value = undefined;
});

// As the server reads it itself (server/sync/traces).
it("reads what the server wrote, as the server reads it", () => {
  const rows = readTrace(bytes) ?? [];
  expect(rows.map(({ at }) => at)).toEqual(told.map(([at]) => at));
  for (const [i, { values }] of rows.entries())
    for (const [k, value] of values.entries()) {
      const want = told[i]?.[k + 1] ?? undefined;
      if (want === undefined) expect(value).toBeUndefined();
      else expect(value).toBeCloseTo(want, 10);
    }
});

it("reads a file that was cut or spoilt as far as it is whole, and no other file", () => {
  expect(readTrace(bytes.subarray(0, bytes.length - 1))).toHaveLength(told.length - 1);
  const spoilt = bytes.slice();
  spoilt[spoilt.length - 1] = ~(spoilt.at(-1) ?? 0);
  expect(readTrace(spoilt)).toHaveLength(told.length - 1);
  expect(readTrace(bytes.subarray(0, 33))).toEqual([]);
  expect(readTrace(new Uint8Array())).toBeUndefined();
  expect(readTrace(new TextEncoder().encode("wirewake trace 2\n"))).toBeUndefined();
});

it("the crew's phone brings the traces of a trip once, and keeps only what is what its name says", async () => {
  const sha256 = await hashOf(bytes.slice().buffer);
  const [wrong, other] = ["0".repeat(64), "a1f7c3a2-5e7c-4b1a-9d3e-2f4c6a8b0d1e"];
  const asked: string[] = [];
  vi.stubGlobal("fetch", async (path: string) => {
    asked.push(path);
    const list = [
      { trip, sha256 },
      { trip, sha256: wrong },
      { trip: other, sha256 },
    ].map((one) => ({ ...one, bytes: 1 }));
    return path === "/api/traces" ? Response.json({ traces: list }) : new Response(bytes);
  });
  await bringTraces([trip]);
  expect(asked, "a phone that is not aboard, or a guest's, asks for none").toEqual([]);
  you.value = { device: "me", name: "Ann", role: "mate", may: ["trips"], crew: [] };
  await bringTraces([trip]);
  expect(await traceNames()).toEqual([`${trip}/${sha256}`]);
  asked.length = 0;
  await bringTraces([trip]);
  expect(asked).toEqual(["/api/traces", `/api/traces/${trip}/${wrong}`]);
  expect(await rowsOf([trip])).toHaveLength(told.length);
  expect(await rowsOf([other])).toEqual([]);
  // A server that has lost it gets it back, and none of another trip.
  await keepTrace(`${other}/${sha256}`, bytes);
  const sent: [string, unknown][] = [];
  vi.stubGlobal("fetch", async (path: string, { method, body }: RequestInit = {}) => {
    if (method === "PUT") sent.push([path, body]);
    return method === "PUT" ? new Response(null, { status: 204 }) : Response.json({ traces: [] });
  });
  await bringTraces([trip]);
  expect(sent).toEqual([[`/api/traces/${trip}/${sha256}`, bytes]]);
  // Out of reach what is here is all.
  vi.stubGlobal("fetch", () => Promise.reject(new TypeError("failed")));
  await bringTraces([trip]);
  expect(await rowsOf([trip])).toHaveLength(told.length);
  expect(await keepTrace(`${trip}/../x`, bytes)).toBe(false);
});

it("waits no longer for many traces than for one", async () => {
  you.value = { device: "me", name: "Ann", role: "mate", may: ["trips"], crew: [] };
  const waits: AbortController[] = [];
  const timeout = vi.spyOn(AbortSignal, "timeout").mockImplementation(() => {
    waits.push(new AbortController());
    return (waits.at(-1) as AbortController).signal;
  });
  const sums = Array.from({ length: 9 }, (_, i) => String(i).repeat(64));
  let asked = 0;
  vi.stubGlobal("fetch", async (path: string, { signal }: RequestInit) => {
    signal?.throwIfAborted();
    if (path === "/api/traces") return Response.json({ traces: sums.map((sha256) => ({ trip, sha256 })) });
    // The time that was given is over while the third comes.
    if (++asked === 3) waits[0]?.abort();
    return new Response(bytes);
  });
  await bringTraces([trip], 2000);
  timeout.mockRestore();
  expect(asked).toBe(3);
});

it("is drawn by the middle depth of each while, and the first place in it", () => {
  const rows = Array.from({ length: 36_000 }, (_, i) => ({
    at: i * 1000,
    values: [i % 60 === 7 ? 99 : 15, ...Array(5).fill(undefined), 0.7, i % 2 ? -1.2 : undefined],
  }));
  const { depths, spots } = thinned(rows);
  expect(depths.length).toBeGreaterThan(590);
  expect(depths.length).toBeLessThan(610);
  expect(new Set(depths.map(({ depth }) => depth))).toEqual(new Set([15]));
  // Where its first row has no place, the next that has one.
  expect(spots.length).toBe(depths.length);
  expect(spots[0]?.lat).toBeCloseTo(40.107, 3);
  expect(thinned([])).toEqual({ depths: [], spots: [] });
});
