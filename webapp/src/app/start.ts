/** What happens between the first line of script and the first answer. */
import { batch, effect, untracked } from "@preact/signals";
import { Died, desk } from "../base/desk/desk";
import { settings } from "../base/units/settings";
import { complete, gear, renewed, withCatalogue } from "../state/gear/gear";
import { taken } from "../state/instruments/taken";
import { paceSettings } from "../state/pace/settings";
import { doubt } from "../state/spread/doubt";
import { last } from "../state/spread/last";
import { lessons } from "../state/spread/learned";
import { keepSolving, solved } from "../state/spread/solved";
import { beginning, firstSpread, spread } from "../state/spread/spread";
import { keepWater, water } from "../state/spread/water";

/**
 * Loads what Lines shows of what is kept on this phone; the rest is read after it. Never fails: what cannot be read is told
 * and left as it begins.
 */
export async function loadKept(): Promise<void> {
  const shown = [settings, gear, spread, water, doubt, last, lessons, paceSettings, taken];
  await Promise.all(shown.map((kept) => kept.loaded()));
}

/** From now on solves whatever is shown. */
export function keepSpread(): void {
  keepWater();
  keepSolving();
  effect(() => {
    desk.restarts.value;
    // What stood in for them may have given way to something that wants filling.
    gear.found.value;
    spread.found.value;
    untracked(fill);
  });
}

/** So long at most what comes after the first paint waits for the first answer, ms. */
const patience = 3000;

/** Until there is an answer of now: what goes on besides would keep it waiting. */
export async function answered(): Promise<void> {
  let stop = () => {};
  await new Promise<void>((done) => {
    const timer = setTimeout(done, patience);
    stop = effect(() => {
      const now = solved.value;
      if ((!now || now.asOf !== undefined) && desk.state.value !== "stopped") return;
      clearTimeout(timer);
      done();
    });
  });
  stop();
}

/** Fills in what nobody has entered yet. */
async function fill(): Promise<void> {
  try {
    const catalogue = await desk.ask("gear", {});
    batch(() => {
      beginning.value = catalogue.start.bottom;
      const known = renewed(
        complete(gear.value) ? gear.value : withCatalogue(gear.value, catalogue),
        catalogue,
      );
      if (JSON.stringify(known) !== JSON.stringify(gear.value)) gear.fill(known);
      if (spread.value.rods.length === 0) spread.fill(firstSpread(catalogue, gear.value));
    });
  } catch (fault) {
    // A calculator that died is told of, and this is tried again with the next one.
    if (!(fault instanceof Died)) throw fault;
  }
}
