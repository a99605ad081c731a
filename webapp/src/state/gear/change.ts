/** Changes of the saved gear. */
import { offerUndo } from "../../base/shell/undo";
import { newId } from "../../base/store/id";
import { text } from "../../base/text/text";
import { type Gear, gear, type Kind } from "./gear";
import { kinds } from "./kinds";
import { isCopy } from "./names";

type Any = Gear[Kind][number];

export const itemsOf = (g: Gear, kind: Kind): Any[] => g[kind];

export const nameOf = (kind: Kind, item: Any): string =>
  (kinds[kind].nameOf as (item: Any, gear: Gear) => string)(item, gear.value);

/** The gear with one item changed. What a person changed is theirs, whatever it was before. */
export function withItem(g: Gear, kind: Kind, id: string, patch: object): Gear {
  return {
    ...g,
    [kind]: itemsOf(g, kind).map((one) =>
      one.id === id ? { ...one, source: text.gear.own, ...patch } : one,
    ),
  };
}

/** One more of a kind, like the one given. Returns its id. */
export function addLike(kind: Kind, like: Any): string {
  const id = newId();
  // A copy of a copy is called as that one is.
  const name = isCopy(like.name) ? like.name : text.gear.copy(nameOf(kind, like));
  gear.set({
    ...gear.value,
    [kind]: [...itemsOf(gear.value, kind), { ...like, id, name, source: text.gear.own }],
  });
  return id;
}

export function remove(kind: Kind, id: string): void {
  const before = gear.value;
  const item = itemsOf(before, kind).find((one) => one.id === id);
  if (!item) return;
  const name = nameOf(kind, item);
  gear.set({ ...before, [kind]: itemsOf(before, kind).filter((one) => one.id !== id) });
  offerUndo(text.gear.removed(name), () => gear.set({ ...gear.value, [kind]: itemsOf(before, kind) }));
}

/** Names of the rigs an item is on; for those it cannot be removed. */
export function usedBy(g: Gear, kind: Kind, id: string): string[] {
  if (kind === "rigs" || kind === "places" || kind === "drails") return [];
  return g.rigs
    .filter((rig) => [rig.wire, rig.backing, rig.leader, rig.spoon, rig.dropper?.line].includes(id))
    .map((rig) => nameOf("rigs", rig));
}
