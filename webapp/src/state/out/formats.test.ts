/** What leaves in open formats, as readers see it that are not this project's. The files are those that Go writes. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { check } from "@placemarkio/check-geojson";
import { gpx } from "@tmcw/togeojson";
import { DOMParser } from "@xmldom/xmldom";
import { parse } from "csv-parse/sync";
import ICAL from "ical.js";
import { describe, expect, it } from "vitest";
import { contract } from "../entry/contract.gen";
import type { Stored } from "../entry/entry";
import { type Folded, foldAll } from "../entry/fold";
import { you } from "../log/log";
import { formatsQuery } from "./formats";

/** The little of a feature that is looked at. */
interface Feature {
  geometry: { type: string } | null;
  // biome-ignore lint/suspicious/noExplicitAny: whatever the reader makes of it
  properties: any;
}

const data = join(import.meta.dirname, "../../../../calc/formats/testdata");
const read = (name: string) => readFileSync(join(data, name), "utf8");
const log = JSON.parse(read("log.json")) as { trip: string; entries: Stored[] };

it.each([
  ["gpx", "query.json"],
  ["ics", "calendar.json"],
] as const)("asks the desk for %s what the server asks it of the same log", (format, kept) => {
  const query = formatsQuery(foldAll(log.entries), log.trip, format);
  expect(JSON.parse(JSON.stringify(query))).toEqual(JSON.parse(read(kept)));
});

it("names who wrote what this phone noted as the server does: as it was called then, also where it is enrolled no more", () => {
  const own = foldAll(log.entries.map((entry) => ({ ...entry, own: true })));
  you.value = { device: "me", name: "called otherwise since", role: "mate", may: [] };
  const waiting = formatsQuery(
    foldAll([{ ...(log.entries[1] as Stored), own: true, byName: undefined as never }]),
    log.trip,
    "csv",
  );
  for (const name of ["called otherwise since", undefined]) {
    if (!name) you.value = undefined;
    const query = formatsQuery(own, log.trip, "gpx");
    expect(JSON.parse(JSON.stringify(query))).toEqual(JSON.parse(read("query.json")));
  }
  // What is not at the server yet goes under the name of now.
  expect(waiting.notes?.map(({ writer }) => writer)).toEqual(["called otherwise since"]);
});

it("names no field as the file itself does, in any kind, nor two of one kind alike", () => {
  const own = ["id", "kind", "time", "spread", "writer"];
  for (const fields of Object.values(contract.kinds))
    expect(Object.keys({ ...contract.any, ...fields }).filter((name) => own.includes(name))).toEqual(
      "spread" in fields ? ["spread"] : [],
    );
  // A spread is no field of the table: it is told with its rods.
  const said = foldAll(log.entries).filter(({ kind }) => kind === "mark");
  expect(said.length).toBeGreaterThan(0);
  const notes = formatsQuery(foldAll(log.entries), log.trip, "csv").notes ?? [];
  for (const { fields } of notes) {
    const names = fields.map(({ name }) => name);
    expect(names).not.toContain("spread");
    expect(new Set(names).size).toBe(names.length);
  }
});

it("has no trip end before it began, where a clock was set back", () => {
  const records = foldAll(log.entries);
  const closed = records.find(({ kind }) => kind === "trip")?.fields.get("closed");
  if (!closed) throw new Error("the trip of the test was never closed");
  closed.value = 1;
  const [event] = formatsQuery(records, log.trip, "ics").events ?? [];
  expect(event?.from).toBeGreaterThan(1_700_000_000);
  expect(event?.to).toBe(event?.from);
});

it("has a trip in the calendar until it was closed, however late something was corrected", () => {
  const [event] = formatsQuery(foldAll(log.entries), log.trip, "ics").events ?? [];
  expect(event).toMatchObject({ to: 1_784_078_400, words: "1 mark, 5 other notes" });
});

it("goes by no clock gone mad: neither an open trip’s end nor when its file was made", () => {
  const at = 1_784_073_600_000;
  const entry = (kind: string, hours: number, set = {}, record = `${hours}`): Stored =>
    ({
      id: `${kind} ${hours}`,
      record,
      trip: "t",
      kind,
      prev: [],
      at: at + hours * 3_600_000,
      set,
      n: 1,
    }) as Stored;
  const far = { ...entry("note", 1), id: "far", record: "far", at: 253_402_300_799_999 };
  const entries = [
    entry("trip", 0, { opened: at }, "t"),
    entry("note", 5),
    { ...entry("note", 40, { text: "better" }, "5"), prev: ["note 5"], n: 2 },
    far,
    { ...far, id: "early", record: "early", at: 0 },
    entry("mark", 20),
  ];
  const query = formatsQuery(foldAll(entries), "t", "ics");
  expect(query.events?.[0]).toMatchObject({ from: at / 1000, to: at / 1000 + 20 * 3600 });
  expect(query.made).toBe(at / 1000 + 40 * 3600);
});

it("asks it of a trip of more entries than a call takes arguments", () => {
  const [first] = log.entries as [Stored];
  const entries = Array.from({ length: 300_000 }, (_, i) => ({ ...first, id: `${i}`, at: first.at + i }));
  const record = { ...(foldAll([first])[0] as Folded), entries };
  expect(formatsQuery([record], log.trip, "ics").made).toBe((first.at + 299_999) / 1000);
});

describe("a file of a trip", () => {
  const text = 'slack; then, "ebb"\nsecond line \\ back 🐟 é';

  it("as GPX is read by togeojson: places by kind, and a track in two segments with its times", () => {
    const document = new DOMParser().parseFromString(read("trip.gpx"), "text/xml");
    const { features } = gpx(document as never) as { features: Feature[] };
    const points = features.filter(({ geometry }) => geometry?.type === "Point");
    expect(points.map(({ properties }) => properties?.name)).toEqual([
      "lines",
      "mark",
      "note",
      "pass",
      "note",
    ]);
    expect(points[1]?.geometry).toMatchObject({ coordinates: [-73.8987654, 40.502] });
    expect(points[2]?.properties?.desc).toContain(text);
    const track = features.find(({ geometry }) => geometry?.type === "MultiLineString");
    expect(track?.geometry).toMatchObject({
      coordinates: [expect.objectContaining({ length: 5 }), expect.objectContaining({ length: 2 })],
    });
    expect(track?.properties?.coordinateProperties.times[0][0]).toBe("2026-07-15T00:01:40Z");
  });

  it("as GeoJSON keeps RFC 7946", () => {
    const { features } = check(read("trip.geojson")) as {
      features: { properties: { [name: string]: unknown } }[];
    };
    expect(features).toHaveLength(10);
    expect(features[3]?.properties).toMatchObject({ kind: "mark", "length (m)": 0.81, fate: "kept" });
  });

  it("as CSV is read by csv-parse, strictly", () => {
    const rows = parse(read("trip.csv"), { columns: true, record_delimiter: "\r\n" }) as {
      [name: string]: string;
    }[];
    expect(rows).toHaveLength(9);
    expect(rows[3]).toMatchObject({ kind: "note", text });
    expect(rows[2]).toMatchObject({ person: '\'=HYPERLINK("x")', "latitude (°)": "40.502" });
  });

  // Where the decimal mark is a comma, spreadsheets split at semicolons and know no quotes but at the beginning of a cell.
  it.each([";", "\t"])(
    "as CSV has no cell that begins like a formula where it is split at %j",
    (delimiter) => {
      const loose = { delimiter, relax_quotes: true, relax_column_count: true };
      const cells = (parse(read("trip.csv"), loose) as string[][]).flat();
      expect(cells.some((cell) => cell.includes("HYPERLINK"))).toBe(true);
      expect(cells.filter((cell) => /^[\s"]*[=+\-@]/.test(cell))).toEqual([]);
    },
  );

  it("as iCalendar is read by ical.js, unfolded and unescaped", () => {
    const calendar = new ICAL.Component(ICAL.parse(read("trip.ics")) as never);
    const events = calendar.getAllSubcomponents("vevent").map((one) => new ICAL.Event(one));
    expect(events.map(({ summary }) => summary)).toEqual(['Shoal & "bank", <early>', "Slack"]);
    expect(events[0]?.description).toBe("1 mark, 5 other notes");
    expect(events[1]?.description).toBe(
      "a very long line of seventy-five octets and more: áéíóú 𝛼𝛽\nand a second, \\ back",
    );
    expect(events[0]?.startDate.toString()).toBe("2026-07-14T23:59:00Z");
    expect(events[0]?.endDate.toString()).toBe("2026-07-15T01:20:00Z");
  });
});
