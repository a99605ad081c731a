/** Names of people, who type them as they like, and that of this phone among them. */
import { you } from "./log";

/** The same person, however the name was typed. */
export const bareName = (name: string): string => name.trim().toLowerCase();

/** Each person in one spelling: the first that was met, of these names and then of those that are asked for. */
export function oneSpelling(names: string[] = []): (name: string) => string {
  const known = new Map<string, string>();
  const spelled = (name: string): string => {
    const found = known.get(bareName(name)) ?? name.trim();
    known.set(bareName(name), found);
    return found;
  };
  names.forEach(spelled);
  return spelled;
}

/** Each person once. */
export const eachOnce = (names: string[]): string[] => [...new Set(names.map(oneSpelling()))].filter(Boolean);

/** Whether this phone is called by this name. */
export const isMine = (name: string): boolean =>
  name !== "" && bareName(name) === bareName(you.value?.name ?? "");

/** Whoever this phone is called after first; unlisted: also where that one is not among the names. */
export function mineFirst(names: string[], unlisted: boolean): string[] {
  const own = names.find(isMine) ?? (unlisted ? you.value?.name.trim() : "");
  return own ? [own, ...names.filter((name) => name !== own)] : names;
}
