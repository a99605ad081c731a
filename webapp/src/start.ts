/** What happens between the first line of script and the first answer. */
import { batch, effect, untracked } from "@preact/signals";
import { renew } from "./aboard/join";
import { keptBoat } from "./crew/boat";
import { keepCrew } from "./crew/keep";
import { keptLists } from "./crew/lists";
import { plan } from "./crew/plan";
import { waitingTicks } from "./crew/told";
import { Died, desk } from "./desk/desk";
import { keepExchanging } from "./exchange/exchange";
import { slush } from "./fish/cooling";
import { fishes } from "./fish/fishes";
import { ice } from "./fish/ice";
import { samples } from "./fish/keeping";
import { fillRules, rules } from "./fish/rules";
import { complete, gear, withCatalogue } from "./gear/gear";
import { lessons } from "./learn/learned";
import { keepLearning } from "./learn/touches";
import { doubt } from "./lines/doubt";
import { keepFollowing } from "./lines/follow";
import { firstSpread, spread } from "./lines/spread";
import { keepSolving } from "./lines/state";
import { keepWater, water } from "./lines/water";
import { settings } from "./locker/settings";
import { atSea, loadLog, running, show } from "./log/log";
import { keepSaying } from "./pace/aloud";
import { keepBeat } from "./pace/beat";
import { knownCurrent } from "./pace/current";
import { keepFinding } from "./pace/find";
import { marks } from "./pace/marks";
import { keepMotion, typed } from "./pace/motion";
import { notches } from "./pace/notches";
import { keepPace } from "./pace/pace";
import { paceSettings } from "./pace/settings";
import { keepPump } from "./pace/spoon";
import { keptHands } from "./plan/hands";
import { watchPosition } from "./position/position";
import { keepTrack } from "./position/track";
import { askToPersist } from "./ready/checks";
import { keepTellingReady } from "./ready/tell";
import { soundings } from "./rise/soundings";
import { keepLooking } from "./rise/watch";
import { keepAwake } from "./shell/awake";
import { findAside } from "./store/aside";

const ofPace = [paceSettings, knownCurrent, typed, marks, notches];
const ofLearning = [lessons, keptHands, soundings];

const ofFish = [rules, fishes, ice, slush, samples];
const ofCrew = [keptBoat, keptLists, plan, waitingTicks];

/** Loads what is kept on this phone. Never fails: what cannot be read is told and left as it begins. */
export async function loadKept(): Promise<void> {
  await Promise.all(
    [settings, gear, spread, water, doubt, ...ofLearning, ...ofPace, ...ofFish, ...ofCrew].map((kept) =>
      kept.load(),
    ),
  );
}

/** Reads the log; from now on keeps it together with the boat's server, and knows where a trip is. */
async function beginLog(): Promise<void> {
  await loadLog();
  if (running.value) await show(running.value.trip);
  keepCrew();
  keepExchanging();
  keepTellingReady();
  renew();
  effect(() => (atSea.value ? watchPosition() : undefined));
  // From now on there is something to lose; and one who notes is likely to agree.
  effect(() => {
    if (atSea.value) askToPersist();
  });
  keepAwake(() => atSea.value && paceSettings.value.awake);
}

/** Follows the boat's motion, and works out its pace. */
function beginPace(): void {
  keepTrack();
  keepMotion();
  keepPump();
  keepPace();
  keepBeat();
  keepFinding();
  keepFollowing();
  keepSaying();
}

/** Fills in what nobody has entered yet, and solves whatever is shown, from now on. */
export function begin(): void {
  keepWater();
  keepSolving();
  beginPace();
  beginLog();
  keepLearning();
  keepLooking();
  findAside();
  effect(() => {
    desk.restarts.value;
    if (!complete(gear.value) || spread.value.rods.length === 0) untracked(fill);
    untracked(fillRules);
  });
}

async function fill(): Promise<void> {
  try {
    const catalogue = await desk.ask("gear", {});
    batch(() => {
      if (!complete(gear.value)) gear.set(withCatalogue(gear.value, catalogue));
      if (spread.value.rods.length === 0) spread.set(firstSpread(catalogue, gear.value));
    });
  } catch (fault) {
    // A calculator that died is told of, and this is tried again with the next one.
    if (!(fault instanceof Died)) throw fault;
  }
}
