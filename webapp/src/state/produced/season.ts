/** The season as the desk is asked about it: all trips with their effort and strikes, by the factors wanted. */
import type { Of, Query, Set as Setting, Spell, Trip as TripAsked } from "../../base/desk/types/produced.gen";
import { text } from "../../base/text/text";
import { type During, type Effort, seam } from "./effort";
import {
  boatFactors,
  type FactorName,
  levelOfBeat,
  levelOfHeading,
  levelOfRod,
  levelOfSpeed,
  rodFactors,
} from "./factors";
import type { Light } from "./water";

/** A trip with what is known about it. */
export interface Outing {
  trip: string;
  ground: string;
  /** ms since 1970. */
  opened: number;
  effort: Effort;
  /** undefined: not looked up yet. */
  light?: During<Light>[] | undefined;
  tide?: During<string>[] | undefined;
}

export interface Question {
  of: Of;
  /** Two factors at once; undefined: each by itself. */
  pair: [FactorName, FactorName] | undefined;
  /** How many questions the same record was asked, with this one. */
  looks: number;
}

/** The levels of a factor by name, in the order in which they are first met. */
class Levels {
  private readonly places = new Map<string, number>();

  constructor(private readonly most = 60) {}

  of(name: string | undefined): number {
    if (name === undefined || name === "") return -1;
    const known = this.places.get(name);
    if (known !== undefined) return known;
    if (this.places.size >= this.most) return -1;
    this.places.set(name, this.places.size);
    return this.places.size - 1;
  }

  get all(): { name: string }[] {
    return [...this.places.keys()].map((name) => ({ name }));
  }
}

export const factorNames: readonly FactorName[] = [...boatFactors, ...rodFactors];

/** What goes on with the same levels is told once: a season of long trips is little to write and to read then. */
class Runs<T extends { from: number; to: number; levels: number[] }> {
  readonly all: T[] = [];
  private readonly last = new Map<string, number>();

  /** One more of a line, each after those before it; its place among all. */
  put(line: string, one: T): number {
    const place = this.last.get(line) ?? -1;
    const before = this.all[place];
    if (
      before &&
      one.from <= before.to + (1.5 * seam) / 1000 &&
      String(before.levels) === String(one.levels)
    ) {
      before.to = one.to;
      return place;
    }
    this.last.set(line, this.all.length);
    return this.all.push(one) - 1;
  }
}

/** What is so at a time. */
const at = <T>(all: During<T>[], ms: number): T | undefined =>
  all.find(({ from, to }) => from <= ms && ms < to)?.is;

/** Times in s: the desk counts in SI. */
export function queryOf(outings: Outing[], { of, pair, looks }: Question): Query {
  const levels = new Map(factorNames.map((name) => [name, new Levels()]));
  const level = (name: FactorName, value: string | undefined) => levels.get(name)?.of(value) ?? -1;
  const places = (name: FactorName) => factorNames.indexOf(name);
  const trips = outings.map((outing): TripAsked => {
    const { effort, ground, light = [], tide = [] } = outing;
    const { outs, speeds, headings, beats, strikes } = effort;
    // From the first of it on, so that a season is no longer to write than it must be.
    const first = Math.min(...outs.map(({ from }) => from), ...strikes.map((one) => one.at));
    const since = (ms: number) => (ms - first) / 1000;
    const spells = new Runs<Spell>();
    for (const { from, to } of spellsOf(outs, [light, tide, speeds, headings, beats])) {
      const middle = (from + to) / 2;
      const told = <T>(all: During<T>[], say: (is: T) => string) => {
        const is = at(all, middle);
        return is === undefined ? undefined : say(is);
      };
      spells.put("", {
        from: since(from),
        to: since(to),
        levels: [
          level(
            "light",
            told(light, (is) => text.produced.light[is]),
          ),
          level("tide", told(tide, String)),
          level("ground", ground || undefined),
          level("speed", told(speeds, levelOfSpeed)),
          level("heading", told(headings, levelOfHeading)),
          level("beat", told(beats, levelOfBeat)),
        ],
      });
    }
    const sets = new Runs<Setting>();
    const placesOf = outs.map((out) =>
      sets.put(`${out.index} ${out.rod.place}`, {
        from: since(out.from),
        to: since(out.to),
        levels: rodFactors.map((name) => level(name, levelOfRod(name, out))),
      }),
    );
    return {
      spells: spells.all,
      sets: sets.all,
      strikes: strikes.map(({ at, out, landed, kept }) => ({
        at: since(at),
        set: placesOf[out] ?? -1,
        ...(landed && { landed }),
        ...(kept && { kept }),
      })),
    };
  });
  const named = (name: FactorName) => ({ name, levels: levels.get(name)?.all ?? [] });
  return {
    boat: boatFactors.map(named),
    rod: rodFactors.map(named),
    within: places("light"),
    ...(pair && { pairs: [{ one: places(pair[0]), other: places(pair[1]) }] }),
    trips,
    of,
    looks,
  };
}

/** The time with lines out, parted where anything of the boat's changed. */
function spellsOf(
  outs: During<unknown>[] | Effort["outs"],
  all: During<unknown>[][],
): { from: number; to: number }[] {
  if (outs.length === 0) return [];
  const [first, last] = [Math.min(...outs.map(({ from }) => from)), Math.max(...outs.map(({ to }) => to))];
  const times = new Set([first, last]);
  for (const { from, to } of all.flat())
    for (const time of [from, to]) if (time > first && time < last) times.add(time);
  const order = [...times].sort((a, b) => a - b);
  return order.slice(1).map((to, i) => ({ from: order[i] as number, to }));
}
