/**
 * What a trip's notes tell of effort: which lines were in the water from when until when, with what on them, and what
 * struck. What is not told stays untold; nothing is guessed between two notes that differ.
 */
import { type Folded, number, words } from "../entry/fold";
import { spoonWords } from "../gear/names";
import { type RodThen, spreadIn } from "../notes/snapshot";
import { timeOf } from "../notes/words";

/** What of a line is set, and may be another by the next note. */
const settings = ["lineOut", "drail", "lure", "colour"] as const;
type Setting = (typeof settings)[number];

/** A line in the water, as it was set; times in ms. */
export interface Out {
  from: number;
  to: number;
  /** Its place among the rods of the spread, from 0. */
  index: number;
  rod: RodThen;
  /** Depth of water. */
  bottom: number;
  /** What of it changed before the next note, nobody knows when. */
  changed: Setting[];
}

/** Something that is so from one time until another. */
export interface During<T> {
  from: number;
  to: number;
  is: T;
}

export interface Struck {
  at: number;
  /** The line by its place among those of the trip; -1: not told, or not noted as out. */
  out: number;
  landed: boolean;
  kept: boolean;
  record: Folded;
}

export interface Effort {
  outs: Out[];
  strikes: Struck[];
  speeds: During<number>[];
  /** Course of the passes, rad. */
  headings: During<number>[];
  /** Beat of the rod tip, Hz. */
  beats: During<number>[];
  /** How deep the water is from then on, m, in order: as set with the lines, and as a pass tells it. */
  bottoms: { at: number; depth: number }[];
  /** Where the boat was, in order. */
  places: { at: number; lat: number; lon: number }[];
}

/** So long after the last note lines are taken to be in the water still, where a trip was closed later, ms. A judgement. */
const afterLast = 3600_000;
/** How long a course of a pass, or a beat, is believed, ms. Judgements. */
const passLasts = 3600_000;
const beatLasts = 1800_000;

/** Kinds whose entries tell of effort. */
export const telling = ["trip", "mark", "lines", "touch", "clear", "pass", "beat"];

/** What begins with a strike begins so much after it, ms: it does not count that one. */
export const seam = 1;

const snapshotKinds = ["lines", "mark", "touch", "clear"];

const writerOf = ({ entries }: Folded): string => (entries[0]?.own ? "own" : (entries[0]?.by ?? ""));

/** Only one phone's spread is the boat's: that of whoever notes the lines; else of whoever notes most. */
function snapshotsOf(records: Folded[]) {
  const all = records.flatMap((record) => {
    const spread = snapshotKinds.includes(record.kind)
      ? spreadIn(record.fields.get("spread")?.value)
      : undefined;
    return spread ? [{ at: timeOf(record), spread, kind: record.kind, by: writerOf(record) }] : [];
  });
  const votes = new Map<string, number>();
  for (const { kind, by } of all) votes.set(by, (votes.get(by) ?? 0) + (kind === "lines" ? 1000 : 1));
  const [boats] = [...votes].sort((a, b) => b[1] - a[1])[0] ?? [];
  return all.filter(({ by }) => by === boats).sort((a, b) => a.at - b.at);
}

/** The effort of a trip by its records; end: when it was closed, or now where it runs. */
export function effortOf(records: Folded[], end: number): Effort {
  const stand = records.filter(({ struck }) => !struck).sort((a, b) => timeOf(a) - timeOf(b));
  const last = Math.max(0, ...stand.map(timeOf));
  const until = Math.min(end, last + afterLast);
  const snapshots = snapshotsOf(stand);
  const outs = outsOf(snapshots, until);
  return {
    outs,
    strikes: stand.filter(({ kind }) => kind === "mark").map((mark) => struckOf(mark, outs)),
    speeds: speedsOf(snapshots, until),
    headings: lasting(stand, "pass", "heading", passLasts, until),
    beats: lasting(stand, "beat", "beat", beatLasts, until),
    bottoms: bottomsOf(stand, snapshots),
    places: stand.flatMap((record) => {
      const [lat, lon] = [number(record, "lat"), number(record, "lon")];
      return lat === undefined || lon === undefined ? [] : [{ at: timeOf(record), lat, lon }];
    }),
  };
}

type Snapshots = ReturnType<typeof snapshotsOf>;

function outsOf(snapshots: Snapshots, until: number): Out[] {
  const outs: Out[] = [];
  snapshots.forEach(({ at, spread, kind }, i) => {
    const next = snapshots[i + 1];
    const to = next?.at ?? until;
    if (to <= at) return;
    spread.rods.forEach((rod, index) => {
      const then = next?.spread.rods.find(({ place }) => place === rod.place);
      // A note of the lines is made when they change; any other only shows that they have.
      const sure = !next || next.kind === "lines";
      const changed = settings.filter((what) => !sure && then && saidOf(then, what) !== saidOf(rod, what));
      if (!sure && !then) return;
      const before = outs.findLast((one) => one.rod.place === rod.place);
      const goesOn =
        before?.to === at &&
        before.changed.length === 0 &&
        changed.length === 0 &&
        sameRod(before.rod, rod) &&
        before.bottom === spread.bottom;
      // Of lines of which nothing but a last strike or touch tells, nobody knows how long they fished.
      if (!next && kind !== "lines" && before?.to !== at) return;
      // A strike was noted because of it.
      const from = kind === "mark" && !goesOn ? at + seam : at;
      if (goesOn && before) before.to = to;
      else outs.push({ from, to, index, rod, bottom: spread.bottom, changed });
    });
  });
  return outs;
}

/** A spoon that an app before this one noted in words is the one that is noted by its length. */
const saidOf = (rod: RodThen, what: (typeof settings)[number]) =>
  what === "lure" ? spoonWords(rod.lure) : rod[what];

const sameRod = (a: RodThen, b: RodThen): boolean =>
  a.rig === b.rig &&
  saidOf(a, "lure") === saidOf(b, "lure") &&
  a.colour === b.colour &&
  a.lineOut === b.lineOut &&
  a.drail === b.drail &&
  a.sinker === b.sinker &&
  a.depth?.mid === b.depth?.mid;

function speedsOf(snapshots: Snapshots, until: number): During<number>[] {
  return snapshots.map(({ at, spread }, i) => ({
    from: at,
    to: snapshots[i + 1]?.at ?? until,
    is: spread.speed,
  }));
}

function bottomsOf(records: Folded[], snapshots: Snapshots): Effort["bottoms"] {
  const passes = records.flatMap((record) => {
    const depth = record.kind === "pass" ? number(record, "bottom") : undefined;
    return depth === undefined ? [] : [{ at: timeOf(record), depth }];
  });
  const set = snapshots.map(({ at, spread }) => ({ at, depth: spread.bottom }));
  return [...set, ...passes].sort((a, b) => a.at - b.at);
}

/** What a note of a kind says is so until the next such note, or for so long. */
function lasting(
  records: Folded[],
  kind: string,
  field: string,
  lasts: number,
  until: number,
): During<number>[] {
  const all = records.flatMap((record) => {
    const is = record.kind === kind ? number(record, field) : undefined;
    return is === undefined ? [] : [{ at: timeOf(record), is }];
  });
  return all.map(({ at, is }, i) => ({
    from: at,
    to: Math.min(all[i + 1]?.at ?? until, at + lasts, until),
    is,
  }));
}

/** A rod is noted by its number and its place: “2 port corner”. */
const isRod = (name: string, { index, rod }: Out): boolean =>
  name === `${index + 1} ${rod.place}` || name === rod.place || name.replace(/^\d+\s+/, "") === rod.place;

/** What a mark tells of the fish: whether it came aboard, and whether it was kept. */
export function fishOf(mark: Folded): { landed: boolean; kept: boolean } {
  const [fish, fate] = [words(mark, "fish"), words(mark, "fate")];
  return {
    landed:
      fish !== "lost" && (fate !== undefined || number(mark, "length") !== undefined || fish !== undefined),
    kept: fish !== "lost" && fate === "kept",
  };
}

function struckOf(mark: Folded, outs: Out[]): Struck {
  const at = timeOf(mark);
  const name = words(mark, "rod");
  const out = name ? outs.findLastIndex((one) => one.from <= at && at <= one.to && isRod(name, one)) : -1;
  return { at, out, ...fishOf(mark), record: mark };
}
