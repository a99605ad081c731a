/** What a list of trips needs to say of one, so that it need not read the trip. */
import type { Stored } from "./entry";
import { foldAll, number, words } from "./fold";

export interface Summary {
  trip: string;
  name: string;
  ground: string;
  /** ms since 1970, by the clock of the phone that said so; closed is null while it runs. */
  opened: number;
  closed: number | null;
  struck: boolean;
  /** The latest entry, by its writer's clock. */
  last: number;
  hookups: number;
}

export function summarise(entries: Stored[]): Summary {
  const trip = entries[0]?.trip ?? "";
  const records = foldAll(entries);
  const own = records.find((record) => record.kind === "trip" && record.id === trip);
  const times = entries.map((entry) => entry.at);
  return {
    trip,
    name: (own && words(own, "name")) ?? "",
    ground: (own && words(own, "ground")) ?? "",
    opened: (own && number(own, "opened")) ?? Math.min(...times),
    closed: (own && number(own, "closed")) ?? null,
    struck: own?.struck ?? false,
    last: Math.max(...times),
    hookups: records.filter((record) => record.kind === "mark" && !record.struck).length,
  };
}
