/** Asks the desk whether changed gear makes sense, before it is taken. */

import { Died, desk, Refused } from "../../base/desk/desk";
import type { Problem } from "../../base/desk/types/codec.gen";
import type { Gear, Kind, Rig } from "../gear/gear";
import { kinds } from "../gear/kinds";
import { bareRod } from "./request";

/** Any sea will do: only the rod is judged. */
const sea = { speed: 1.5, bottom: 15 };
const wanted = { low: 1, high: 3 };

/** What is wrong with the item of this id in the gear given; undefined if nothing. */
export async function judge(gear: Gear, kind: Kind, id: string): Promise<Problem | undefined> {
  const on = kinds[kind].on as (rig: Rig, id: string) => Rig;
  const like = kind === "rigs" ? gear.rigs.find((r) => r.id === id) : gear.rigs[0];
  if (!like) return undefined;
  const rig = on({ ...like, id: "judged" }, id);
  const place = kind === "places" ? id : (gear.places[0]?.id ?? "");
  const drail = kind === "drails" ? (gear.drails.find((d) => d.id === id)?.mass ?? 0) : 0;
  const rod = bareRod(
    { ...gear, rigs: [rig] },
    { id: "", place, rig: "judged", lineOut: 1, drail, sinker: 0, planned: null },
  );
  try {
    await desk.ask("spread", { sea, wanted, rods: [rod] });
  } catch (fault) {
    if (fault instanceof Refused) return fault.problems[0];
    // Without a calculator nothing can be judged, and what was typed is still kept.
    if (!(fault instanceof Died)) throw fault;
  }
  return undefined;
}
