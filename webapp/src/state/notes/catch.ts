/** What a trip caught, from its notes: by species and by rod. */
import { type Folded, number, words } from "../entry/fold";

/** Fish of a species, or on a rod; empty: nobody told. */
export interface Caught {
  of: string;
  kept: number;
  released: number;
  /** Nobody told what became of them. */
  untold: number;
}

export interface Catch {
  all: Caught;
  /** Those that got off, and how many why; empty: nobody told. */
  off: number;
  offWhy: Map<string, number>;
  bySpecies: Caught[];
  byRod: Caught[];
}

/** What a mark says of a fish that nobody saw aboard. */
const lost = "lost";

export function catchOf(records: Folded[]): Catch {
  const stand = records.filter(({ struck }) => !struck);
  const marks = stand.filter(({ kind }) => kind === "mark");
  const fish = marks.filter((mark) => words(mark, "fish") !== lost);
  const bySpecies = group(fish, "fish");
  for (const bag of stand.filter(({ kind }) => kind === "bag")) {
    const of = words(bag, "fish") ?? "";
    if (!bySpecies.some((one) => one.of === of)) bySpecies.push(none(of));
  }
  // What is in the bag counts where it tells of more than the hookups do.
  for (const one of bySpecies) one.kept = Math.max(one.kept, inBags(stand, one.of));
  return {
    all: sum(bySpecies),
    off: marks.length - fish.length,
    offWhy: whyOff(marks),
    bySpecies: bySpecies.sort(most),
    byRod: group(fish, "rod").sort((a, b) => a.of.localeCompare(b.of, undefined, { numeric: true })),
  };
}

function whyOff(marks: Folded[]): Map<string, number> {
  const all = new Map<string, number>();
  for (const mark of marks) {
    if (words(mark, "fish") !== lost) continue;
    const why = words(mark, "off") ?? "";
    all.set(why, (all.get(why) ?? 0) + 1);
  }
  return all;
}

const none = (of: string): Caught => ({ of, kept: 0, released: 0, untold: 0 });

const count = ({ kept, released, untold }: Caught) => kept + released + untold;

const most = (a: Caught, b: Caught) => count(b) - count(a) || a.of.localeCompare(b.of);

function group(marks: Folded[], field: "fish" | "rod"): Caught[] {
  const all = new Map<string, Caught>();
  for (const mark of marks) {
    const of = words(mark, field) ?? "";
    const known = all.get(of) ?? none(of);
    all.set(of, known);
    const fate = words(mark, "fate");
    known[fate === "kept" || fate === "released" ? fate : "untold"]++;
  }
  return [...all.values()];
}

const inBags = (records: Folded[], species: string): number =>
  records
    .filter((one) => one.kind === "bag" && (words(one, "fish") ?? "") === species)
    .reduce((all, bag) => all + (number(bag, "count") ?? 0), 0);

function sum(all: Caught[]): Caught {
  const whole = none("");
  for (const { kept, released, untold } of all) {
    whole.kept += kept;
    whole.released += released;
    whole.untold += untold;
  }
  return whole;
}
