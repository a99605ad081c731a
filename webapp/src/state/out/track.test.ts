/** Tracks as files have them. The reader of XML is not a browser's: what that makes of a broken file is in e2e. */
import "fake-indexeddb/auto";
import { DOMParser } from "@xmldom/xmldom";
import { beforeEach, expect, it, vi } from "vitest";
import { text } from "../../base/text/text";
import { foldAll } from "../entry/fold";
import { uuid } from "../entry/uuid";
import { book } from "../log/log";
import type { Trip } from "../log/one";
import { pointsOf } from "./formats";
import { loadTrack, trackOfGpx } from "./track";

// Where the boat is, a time without a zone is not read as one of there.
process.env.TZ = "America/New_York";

vi.stubGlobal(
  "DOMParser",
  class {
    parseFromString(xml: string, type: string) {
      const quiet = new DOMParser({ onError: () => undefined });
      try {
        return quiet.parseFromString(xml, type);
      } catch {
        return quiet.parseFromString("<parsererror/>", type);
      }
    }
  },
);

const noon = Date.UTC(2026, 6, 15, 12) / 1000;
const iso = (time: number) => new Date(time * 1000).toISOString();
const point = (time: string, at = 'lat="40.5" lon="-73.9"') =>
  `<trkpt ${at}>${time && `<time>${time}</time>`}</trkpt>`;
const gpx = (inside: string, more = "") =>
  `<?xml version="1.0"?><gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1"${more}>${inside}</gpx>`;
const track = (...points: string[]) => `<trk><trkseg>${points.join("")}</trkseg></trk>`;
const timesOf = (xml: string) => trackOfGpx(xml).points.map(([time]) => time);

it.each([
  ["2026-07-15T12:00:00", noon],
  ["2026-07-15T12:00", noon],
  ["2026-07-15 12:00:00", noon],
  ["\n 2026-07-15T12:00:00.4 ", noon],
  ["2026-07-15T12:00:00Z", noon],
  ["2026-07-15T12:00:00+02:00", noon - 7200],
  ["2026-07-15T12:00:00.000-04:00", noon + 4 * 3600],
])("reads %j as GPX means it: without a zone it is UTC", (said, time) => {
  expect(timesOf(gpx(track(point(said))))).toEqual([time]);
});

it("reads GPX 1.0, names with a prefix or of no space, and all segments of all tracks in the order of time", () => {
  const times = [2, 0, 1].map((s) => point(iso(noon + s)));
  const all = [noon, noon + 1, noon + 2];
  expect(
    timesOf(`<gpx version="1.0" xmlns="http://www.topografix.com/GPX/1/0">${track(...times)}</gpx>`),
  ).toEqual(all);
  expect(timesOf(`<gpx>${track(...times)}</gpx>`)).toEqual(all);
  const [a, b, c] = times;
  expect(
    timesOf(gpx(`<trk><trkseg>${a}</trkseg><trkseg/><trkseg>${b}</trkseg></trk>${track(c as string)}`)),
  ).toEqual(all);
  const prefixed = track(...times).replace(/<(\/?)/g, "<$1g:");
  expect(timesOf(`<g:gpx xmlns:g="http://www.topografix.com/GPX/1/1">${prefixed}</g:gpx>`)).toEqual(all);
});

it("takes a point for what it says itself, and counts those that say no time or place", () => {
  const inner = `<trkpt lat="40.5" lon="-73.9"><extensions><x:time>${iso(noon)}</x:time></extensions></trkpt>`;
  const bad = [
    inner,
    point(""),
    point("yesterday"),
    point(iso(noon), 'lat="40,5" lon="-73,9"'),
    point(iso(noon), 'lat="" lon=""'),
    point(iso(noon), 'lon="-73.9"'),
    point(iso(noon), 'lat="91" lon="0"'),
    point("1969-12-31T23:00:00Z"),
  ];
  const read = trackOfGpx(gpx(track(...bad, point(iso(noon))), ' xmlns:x="urn:x"'));
  expect(read).toEqual({ points: [[noon, 40.5, -73.9]], unread: bad.length, broken: false });
});

const t = text.notes.formats;
let trip: Trip;
let end: number;

beforeEach(async () => {
  const id = uuid();
  end = noon + 1.25 * 86_400;
  trip = { trip: id, parts: [id] } as unknown as Trip;
  const set = { opened: noon * 1000, closed: end * 1000 };
  await book.append([{ id: uuid(), record: id, kind: "trip", trip: id, prev: [], set, at: noon * 1000 }]);
});

const load = (xml: string) => loadTrack(new File([xml], "a.gpx"), trip);
const every = (from: number, to: number, step: number) => {
  const points: string[] = [];
  for (let at = from; at <= to; at += step) points.push(point(iso(at)));
  return gpx(track(...points));
};
const held = async () =>
  foldAll(await book.entriesOf(trip.parts))
    .filter(({ kind }) => kind === "track")
    .flatMap(pointsOf);

it("has every ten seconds of a trip of more than a day, and nothing twice", async () => {
  const xml = every(noon, end - 1, 10);
  expect(await load(xml)).toBe(t.loadedTrack(1.25 * 8640));
  await vi.waitFor(async () => expect(await held()).toHaveLength(1.25 * 8640));
  expect(await load(xml)).toBe(t.trackHere);
  expect(await load(every(end - 5, end + 20, 5))).toBe(t.loadedTrack(3));
});

it("tells what it leaves out: of other trips, and what cannot be read", async () => {
  const half = 12 * 3600;
  const times = [noon - half - 1, noon - half, end + half, end + half + 1, end + half + 60].map(iso);
  const said = await load(gpx(track(...times.map((time) => point(time)), point(""))));
  expect(said).toBe([t.loadedTrack(2), t.besideTrack(3), t.unreadTrack(1)].join(" "));
  await vi.waitFor(async () =>
    expect((await held()).map(({ time }) => iso(time))).toEqual(times.slice(1, 3)),
  );
});

it("takes nothing of a track of another day, of one without times and of what is no XML, and says so", async () => {
  const before = await book.entriesOf(trip.parts);
  expect(await load(every(noon - 3 * 86_400, noon - 2 * 86_400, 60))).toMatch(/Jul 12.*Jul 13/);
  expect(await load(gpx(track(point(""))))).toBe(t.noTrack);
  expect(await load(gpx(""))).toBe(t.noTrack);
  for (const xml of ["", "<gpx", "\u0000PNG"]) expect(await load(xml)).toBe(text.notes.file.unreadable);
  expect(await book.entriesOf(trip.parts)).toEqual(before);
});
