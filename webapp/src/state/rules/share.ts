/** A set of rules from phone to phone: as a file, or in the running trip. What comes is added, never put over another. */
import { computed } from "@preact/signals";
import { handOver } from "../../base/phone/hand-over";
import { newId } from "../../base/store/id";
import { text } from "../../base/text/text";
import { mayChange } from "../crew/role";
import { tripRecords } from "../crew/trip";
import { same } from "../entry/entry";
import type { Folded } from "../entry/fold";
import { running } from "../log/log";
import { amend, note } from "../log/saying/say";
import { plainRules, type RuleSet, rules, setShape } from "./rules";

/** Says what the file is; a later version is told as one. */
const format = "wirewake-rules";
const version = 1;

/** What travels of a set: nothing that only one phone knows. */
const plain = (set: RuleSet) => ({ name: set.name, asOf: set.asOf, rules: plainRules(set) });

/** Two sets say the same, whatever phone they are on. */
const alike = (one: RuleSet, other: RuleSet): boolean => same(plain(one), plain(other));

/** A set as it came; undefined where it cannot be read, or not all of it. */
function setOf(raw: unknown): RuleSet | undefined {
  const came = raw as { rules?: unknown } | null;
  if (typeof came !== "object" || came === null || !Array.isArray(came.rules)) return undefined;
  let whole = true;
  try {
    const read = setShape(
      { ...came, id: newId(), rules: came.rules.map((rule) => ({ ...rule, id: newId(), own: false })) },
      () => {
        whole = false;
      },
    );
    // Half a rule is worse than none.
    return whole && read.rules.length > 0 ? read : undefined;
  } catch {
    return undefined;
  }
}

export const rulesFile = (set: RuleSet): string =>
  `${JSON.stringify({ format, version, sets: [plain(set)] }, null, 2)}\n`;

export async function saveSet(set: RuleSet): Promise<void> {
  const name = set.name.replace(/[^\p{L}\p{N}]+/gu, "-").toLowerCase();
  await handOver(`${name}.wirewake-rules.json`, rulesFile(set));
}

const t = text.fish.share;

/** Takes the sets of a file in; tells what came of it. */
export function loadSets(content: string): string {
  let file: { format?: unknown; version?: unknown; sets?: unknown };
  try {
    file = JSON.parse(content);
  } catch {
    return t.notRules;
  }
  if (file?.format !== format || !Array.isArray(file.sets)) return t.notRules;
  if (file.version !== version) return t.later;
  const came = file.sets.map(setOf);
  const read = came.filter((set) => set !== undefined);
  if (read.length < came.length || read.length === 0) return t.broken;
  for (const set of read) takeSet(set);
  return t.loaded(read.map(({ name }) => name).join(", "));
}

/** Adds a set and uses it; one that is here already is only used. */
export function takeSet(set: RuleSet): void {
  const here = rules.value.sets.find((one) => alike(one, set));
  rules.set({
    ...rules.value,
    sets: here ? rules.value.sets : [...rules.value.sets, set],
    set: here?.id ?? set.id,
  });
}

/** What an entry may hold, with room for what goes round it, bytes. */
const mostBytes = 15_000;

export const fitsTrip = (set: RuleSet): boolean =>
  new TextEncoder().encode(JSON.stringify(plain(set))).length <= mostBytes;

const ofTrip = (): Folded[] => tripRecords("rules")?.filter((one) => !one.struck) ?? [];

const read = (record: Folded): RuleSet | undefined =>
  setOf(Object.fromEntries([...record.fields].map(([name, { value }]) => [name, value])));

/** Whether the running trip has this set as it is now. */
export const isGiven = (set: RuleSet): boolean =>
  ofTrip().some((record) => {
    const given = read(record);
    return given !== undefined && alike(given, set);
  });

export const mayGive = (): boolean => mayChange() && running.value !== undefined;

/** Gives a set to the crew's phones, in the place of an earlier one of its name. */
export function giveSet(set: RuleSet): void {
  const before = ofTrip().find((record) => record.fields.get("name")?.value === set.name);
  if (before) amend(before, plain(set));
  else note("rules", plain(set));
}

export interface Offered {
  set: RuleSet;
  record: Folded;
}

/** Sets of the running trip that this phone does not have. */
export const offered = computed<Offered[]>(() =>
  ofTrip().flatMap((record) => {
    const set = read(record);
    return set && !rules.value.sets.some((one) => alike(one, set)) ? [{ set, record }] : [];
  }),
);
