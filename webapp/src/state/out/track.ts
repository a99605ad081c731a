/** A track from elsewhere into a trip: GPX 1.0 or 1.1, its points with a time. */
import { text } from "../../base/text/text";
import { moment } from "../../base/units/when";
import { foldAll } from "../entry/fold";
import { book } from "../log/log";
import type { Trip } from "../log/one";
import { noteInTrip } from "../log/saying/say";
import { pointsOf, spanOf } from "./formats";

/** [s since 1970, °, °] */
export type TrackPoint = [number, number, number];

export interface Track {
  /** In order, those that can be read. */
  points: TrackPoint[];
  /** How many have no time or place that can be. */
  unread: number;
  /** The file breaks off, or is no XML. */
  broken: boolean;
}

/** One point is kept of so many s: in these a trolling boat goes a few lengths. A judgement. */
const apart = 10;
/** Of one entry, so that it stays within its 16 KB. */
const most = 400;
/** What lies farther from the trip, s, is of another: who forgot to close one is home by then. A judgement. */
const beside = 12 * 3600;
const largest = 64 * 1024 * 1024;

/** The points of all segments of all tracks. */
export function trackOfGpx(xml: string): Track {
  const read = new DOMParser().parseFromString(xml, "application/xml");
  const all = [...read.getElementsByTagNameNS("*", "trkpt")];
  const points = all.flatMap((one): TrackPoint[] => {
    const time = [...one.childNodes].find(({ nodeName }) => /^(.*:)?time$/.test(nodeName));
    const at = secondsOf(time?.textContent ?? "");
    const [lat, lon] = [degreesOf(one, "lat"), degreesOf(one, "lon")];
    return at >= 0 && Math.abs(lat) <= 90 && Math.abs(lon) <= 180
      ? [[Math.round(at), Number(lat.toFixed(6)), Number(lon.toFixed(6))]]
      : [];
  });
  return {
    points: points.sort((a, b) => a[0] - b[0]),
    unread: all.length - points.length,
    broken: read.getElementsByTagName("parsererror").length > 0,
  };
}

/** A time without a zone is in UTC, as GPX 1.1 has all of them; browsers would take it for one of here. */
function secondsOf(said: string): number {
  const time = said.trim();
  return Date.parse(/[T ]\d\d:\d\d(:\d\d(\.\d*)?)?$/.test(time) ? `${time}Z` : time) / 1000;
}

function degreesOf(point: Element, name: string): number {
  const said = point.getAttribute(name)?.trim();
  return said ? Number(said) : Number.NaN;
}

const bin = (time: number): number => Math.floor(time / apart);

const t = text.notes.formats;

/** Takes what is of a trip into it; tells what came of it and what did not. */
export async function loadTrack(file: File, trip: Trip): Promise<string> {
  if (file.size > largest) return text.notes.file.large;
  const { points, unread, broken } = trackOfGpx(await file.text());
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return broken ? text.notes.file.unreadable : t.noTrack;
  const records = foldAll(await book.entriesOf(trip.parts));
  const [from, to] = spanOf(records, trip.trip);
  const own = points.filter(([time]) => time >= from - beside && time <= to + beside);
  if (own.length === 0) return t.otherTrack(moment(first[0] * 1000), moment(last[0] * 1000));
  const tracks = records.filter(({ kind, struck }) => kind === "track" && !struck);
  const held = new Set(tracks.flatMap(pointsOf).map(({ time }) => bin(time)));
  const taken = own.filter(([time]) => !held.has(bin(time)) && held.add(bin(time)));
  const name = file.name.replace(/\.gpx$/i, "");
  for (let i = 0; i < taken.length; i += most)
    noteInTrip(trip.trip, "track", { name, points: taken.slice(i, i + most) });
  return [
    taken.length > 0 ? t.loadedTrack(taken.length) : t.trackHere,
    own.length < points.length && t.besideTrack(points.length - own.length),
    unread > 0 && t.unreadTrack(unread),
    broken && t.brokenTrack,
  ]
    .filter(Boolean)
    .join(" ");
}
