/**
 * What this phone may do besides what all may, and whose word an entry is. A phone that is nobody's but its owner's may do
 * all of it.
 */
import type { Right } from "../entry/contract";
import type { Stored } from "../entry/entry";
import type { Folded } from "../entry/fold";
import { you } from "../log/log";
import { isCrews } from "../log/whose";

export const may = (right: Right): boolean => you.value?.may.includes(right) ?? true;

/** The lists, the rules and the boat's particulars are the crew's to change; a guest reads and ticks. */
export const mayChange = (): boolean => may("crew");

/** Whether a guest wrote it, whoever brought it. */
export const isGuests = ({ entries: [first] }: Folded): boolean =>
  first !== undefined && (first.own ? !mayChange() : !isCrews({ by: first.by }));

/**
 * Which phone answers for an entry; undefined where nobody knows. This phone and the crew's also bring what others wrote,
 * all of it after a restored backup: such an entry is its writer's if it bears the writer's mark. What a guest's phone
 * brought is that phone's, whoever is said to have written it, unless it bears the mark of a guest's phone that is aboard:
 * a key that somebody made up is no other person.
 */
function answering({ own, by, via, mark }: Stored): string | undefined {
  if (own) return "";
  if (via === undefined) return by;
  const marked = mark === undefined ? undefined : by;
  if (via === you.value?.device || isCrews({ by: via })) return marked;
  return marked !== undefined && you.value?.guests?.includes(marked) ? marked : via;
}

/** Things by the phones that answer for them, in the order of the first of each; where none does, each by itself. */
export function byPhone<T>(all: T[], of: (one: T) => Stored | undefined): T[][] {
  const phones = new Map<unknown, T[]>();
  for (const one of all) {
    const entry = of(one);
    const phone = (entry && answering(entry)) ?? Symbol();
    phones.set(phone, [...(phones.get(phone) ?? []), one]);
  }
  return [...phones.values()];
}
