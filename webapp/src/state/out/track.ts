/** A track from elsewhere into a trip: GPX 1.0 or 1.1, its points with a time. */
import { text } from "../../base/text/text";
import { noteInTrip } from "../log/saying/say";

/** [s since 1970, °, °] */
export type TrackPoint = [number, number, number];

/** Between two points that are kept, s: in less a trolling boat goes a few lengths. A judgement. */
const apart = 10;
/** Of one entry, so that it stays within its 16 KB. */
const most = 400;
/** A day of points that are so far apart. */
const longest = 86_400 / apart;
const largest = 64 * 1024 * 1024;

/** The points of a track, in order, thinned; none where it is no GPX. */
export function pointsOfGpx(xml: string): TrackPoint[] {
  const read = new DOMParser().parseFromString(xml, "application/xml");
  const all = [...read.getElementsByTagNameNS("*", "trkpt")].flatMap((one): TrackPoint[] => {
    const time = Date.parse(one.getElementsByTagNameNS("*", "time")[0]?.textContent ?? "") / 1000;
    const [lat, lon] = ["lat", "lon"].map((name) => Number.parseFloat(one.getAttribute(name) ?? "")) as [
      number,
      number,
    ];
    return time >= 0 && Math.abs(lat) <= 90 && Math.abs(lon) <= 180
      ? [[Math.round(time), Number(lat.toFixed(6)), Number(lon.toFixed(6))]]
      : [];
  });
  all.sort((a, b) => a[0] - b[0]);
  let last = Number.NEGATIVE_INFINITY;
  return all
    .filter(([time]) => {
      const keep = time - last >= apart;
      if (keep) last = time;
      return keep;
    })
    .slice(0, longest);
}

const t = text.notes.formats;

/** Takes a track into a trip; tells what came of it. */
export async function loadTrack(file: File, trip: string): Promise<string> {
  if (file.size > largest) return text.notes.file.large;
  const points = pointsOfGpx(await file.text());
  if (points.length === 0) return t.noTrack;
  const name = file.name.replace(/\.gpx$/i, "");
  for (let i = 0; i < points.length; i += most)
    noteInTrip(trip, "track", { name, points: points.slice(i, i + most) });
  return t.loadedTrack(points.length);
}
