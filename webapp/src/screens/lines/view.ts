/** The picture's scales: metres astern and deep to pixels, the same exaggeration all over. */
import type { Solved } from "../../state/spread/solved";

export interface Scale {
  x: (value: number) => number;
  y: (value: number) => number;
}

export interface View extends Scale {
  width: number;
  height: number;
  /** Pixels for a metre along and down. */
  across: number;
  down: number;
  /** How many times taller things are drawn than they are long. */
  exaggeration: number;
}

/** Room, in pixels, for the boat ahead of the rod tips, for the numbers astern, and below the bottom. */
const ahead = 56;
const astern = 26;
const below = 34;
const above = 6;

export function viewOf({ spread, rods }: Solved, width: number, height: number): View {
  const answers = rods.filter((rod) => !rod.trouble);
  const longest = Math.max(
    20,
    ...answers.map((rod) => rod.astern),
    ...answers.flatMap((rod) => rod.branch.astern),
  );
  const highest = Math.max(3, ...answers.map((rod) => -Math.min(...rod.curve.depth)));
  const deepest = Math.max(spread.bottom, ...answers.map((rod) => rod.depth.mid));
  const across = Math.max(width - ahead - astern, 50) / longest;
  const fitting = Math.max(height - above - below, 16) / (highest + deepest) / across;
  const exaggeration = Math.max(honest(fitting), 0.1);
  const down = across * exaggeration;
  const surface = above + highest * down;
  return {
    width,
    height,
    across,
    down,
    exaggeration,
    x: (a) => width - ahead - a * across,
    y: (depth) => surface + depth * down,
  };
}

/** Rounded down to a number that can be said: steps of ½ above 2, of ¼ above 1, of a tenth below. */
function honest(fitting: number): number {
  const step = fitting >= 2 ? 0.5 : fitting >= 1 ? 0.25 : 0.1;
  return Math.floor(fitting / step) * step;
}

/** An SVG path through points; undefined coordinates never come from the desk. */
export function path(view: Scale, xs: number[], ys: number[]): string {
  return xs
    .map((x, i) => `${i ? "L" : "M"}${view.x(x).toFixed(1)} ${view.y(ys[i] ?? 0).toFixed(1)}`)
    .join("");
}

/** The area between two curves over the same points. */
export function area(view: Scale, xs: number[], low: number[], high: number[]): string {
  const back = [...xs].reverse();
  return `${path(view, xs, low)}${path(view, back, [...high].reverse()).replace("M", "L")}Z`;
}

/** The likelier, the darker: drawn over each other, the whole band and parts of it nearer to its middle. */
const shades = [1, 0.66, 0.33];

/** Those parts of a band, each from its upper edge to its lower. */
export const shaded = (mid: number[], { low, high }: { low: number[]; high: number[] }) =>
  shades.map((share) => {
    const toward = (edge: number[]) => mid.map((at, i) => at + share * ((edge[i] ?? at) - at));
    return { share, low: toward(low), high: toward(high) };
  });

/** Depths to mark, at least `apart` pixels apart, in the unit shown; in SI. */
export function depthMarks(view: View, bottom: number, unit: number, apart = 34): number[] {
  const step = [1, 2, 5, 10, 20, 50, 100, 200, 500].find((s) => s * unit * view.down >= apart) ?? 1000;
  const marks: number[] = [];
  for (let d = step * unit; (bottom - d) * view.down > 14; d += step * unit) marks.push(d);
  return marks;
}

/** Spreads numbers that would lie on each other along a line: each at its place or next to it, none off the picture. */
export function spaced(places: number[], size: number, least: number): number[] {
  const order = places.map((_, i) => i).sort((a, b) => (places[b] as number) - (places[a] as number));
  const at = [...places];
  let limit = Number.POSITIVE_INFINITY;
  for (const i of order) {
    at[i] = Math.min(at[i] as number, limit);
    limit = at[i] - size;
  }
  limit = least;
  for (const i of order.reverse()) {
    at[i] = Math.max(at[i] as number, limit);
    limit = at[i] + size;
  }
  return at;
}
