/** Scales of the two pictures of a turn: metres to pixels, the same along and across in the one from above. */

import type { Scale } from "../view";

/** A line as both pictures draw it: from the lure up, places from the boat. */
export interface Drawn {
  number: number;
  astern: number[];
  abeam: number[];
  depth: number[];
  /** The band of the depth at these points; absent where none is computed. */
  band?: { low: number[]; high: number[] };
  chosen: boolean;
}

const edge = 26;

/** Astern runs down, starboard to the right, and the boat keeps her place as the turn gets tighter. */
export function fromAbove(lines: Drawn[], width: number, height: number): Scale {
  const astern = lines.flatMap((line) => line.astern);
  const abeam = lines.flatMap((line) => line.abeam.map(Math.abs));
  const long = Math.max(10, ...astern);
  const wide = Math.max(5, ...abeam);
  const scale = Math.min((height - 2 * edge) / long, (width / 2 - edge) / wide);
  return { x: (value) => width / 2 + value * scale, y: (value) => edge + value * scale };
}

/** Astern runs to the left, depth down; heights are drawn larger where there is room. */
export function fromBeside(lines: Drawn[], bottom: number, width: number, height: number): Scale {
  const astern = lines.flatMap((line) => line.astern);
  const far = Math.max(10, ...astern);
  const near = Math.min(0, ...astern);
  const deep = Math.max(bottom * 1.06, ...lines.flatMap((line) => line.depth));
  const high = Math.max(2, ...lines.flatMap((line) => line.depth.map((depth) => -depth)));
  return {
    x: (value) => width - edge - ((value - near) / (far - near)) * (width - 2 * edge),
    y: (value) => 8 + ((value + high) / (high + deep)) * (height - 16),
  };
}

/** Moves numbers up that would lie on each other, until each is as far from the others as it is large. */
export function apart(places: { x: number; y: number }[], size: number): { x: number; y: number }[] {
  const put: { x: number; y: number }[] = [];
  for (const { x, y } of places) {
    let free = y;
    while (put.some((other) => Math.abs(other.x - x) < size && Math.abs(other.y - free) < size - 0.5))
      free -= size;
    put.push({ x, y: free });
  }
  return put;
}
