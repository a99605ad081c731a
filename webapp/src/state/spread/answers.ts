/**
 * What the desk has answered, rod by rod. No rod hangs on another, so where one was changed only that one is asked for,
 * and the others are as they were.
 */
import { Refused } from "../../base/desk/desk";
import type { Problem } from "../../base/desk/types/codec.gen";
import type { RodAnswer, Spread, SpreadAnswer } from "../../base/desk/types/towline.gen";

/** Asks the desk; undefined: something newer was asked in its place. */
export type Ask = (request: Spread) => Promise<SpreadAnswer | undefined>;

type All = Omit<SpreadAnswer, "rods">;

export class Answers {
  /** What is asked of all rods alike, what came of it, and of each rod as it was asked. */
  private of = "";
  private all: All | undefined;
  private rods = new Map<string, RodAnswer>();

  constructor(private readonly desk: Ask) {}

  /** Answers as the desk does. */
  async ask({ rods, ...common }: Spread): Promise<SpreadAnswer | undefined> {
    const of = JSON.stringify(common);
    const keys = rods.map((rod) => JSON.stringify(rod));
    const known = new Map(this.of === of ? this.rods : []);
    const missing = [...new Set(keys)].flatMap((key) => (known.has(key) ? [] : [keys.indexOf(key)]));
    let all = this.of === of ? this.all : undefined;
    if (missing.length > 0 || !all) {
      const asked = missing.flatMap((i) => rods[i] ?? []);
      const answer = await this.desk({ ...common, rods: asked }).catch((fault) => {
        throw fault instanceof Refused
          ? new Refused(fault.problems.map((problem) => placed(problem, missing)))
          : fault;
      });
      if (!answer) return undefined;
      const { rods: told, ...rest } = answer;
      all = rest;
      for (const [at, i] of missing.entries()) {
        const rod = told[at];
        if (rod) known.set(keys[i] as string, rod);
      }
    }
    const told = keys.flatMap((key, i) => {
      const rod = known.get(key);
      return rod ? [rod.trouble ? { ...rod, trouble: at(rod.trouble, i) } : rod] : [];
    });
    this.of = of;
    this.all = all;
    this.rods = new Map(keys.flatMap((key, i) => (told[i] ? [[key, told[i]]] : [])));
    return { ...all, rods: told };
  }
}

const rodIn = /^rods\[(\d+)\]/;

/** A problem of one of the rods that were asked for, where that rod is among all. */
const placed = (problem: Problem, places: number[]): Problem => {
  const [, number] = rodIn.exec(problem.field) ?? [];
  return number === undefined ? problem : at(problem, places[Number(number)] ?? Number(number));
};

const at = (problem: Problem, i: number): Problem => ({
  ...problem,
  field: problem.field.replace(rodIn, `rods[${i}]`),
});
