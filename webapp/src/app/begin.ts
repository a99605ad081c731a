/** What is kept going besides the spread, from after the first paint on. */
import { computed, effect, untracked } from "@preact/signals";
import { desk } from "../base/desk/desk";
import { keepAwake } from "../base/phone/awake";
import { clockAhead } from "../base/phone/clock";
import { watchPosition } from "../base/position/position";
import { keepTrack } from "../base/position/track";
import { soon } from "../base/shell/soon";
import { findAside } from "../base/store/aside";
import { alarmSettings, keepAlarming } from "../state/alarms/alarms";
import { keepReadyToSound } from "../state/alarms/sound";
import { keepSharing } from "../state/calibrate/share";
import { taught } from "../state/calibrate/taught";
import { teachingKept } from "../state/calibrate/teaching";
import { keepCalibrating, leftOut } from "../state/calibrate/touches";
import { keptHeads } from "../state/crew/aboard";
import { keptBoat } from "../state/crew/boat";
import { floatPlan } from "../state/crew/floatplan";
import { keepCrew } from "../state/crew/keep";
import { keptLists } from "../state/crew/lists";
import { mayChange } from "../state/crew/role";
import { waitingTicks } from "../state/crew/told";
import { forecast, formerLimits, takeFormerLimits } from "../state/crew/weather";
import { keepAsking } from "../state/enrol/ask";
import { keepLookingWhoAsks } from "../state/enrol/asks";
import { renew } from "../state/enrol/join";
import { keepExchanging } from "../state/exchange/exchange";
import { keepLeaving } from "../state/fish/abandoned";
import { slush } from "../state/fish/cooling";
import { fishes } from "../state/fish/fishes";
import { ice } from "../state/fish/ice";
import { samples } from "../state/fish/keeping";
import { keepLately } from "../state/fish/lately";
import { keepHearing } from "../state/instruments/stream";
import { keepTaking, taken } from "../state/instruments/taken";
import { atSea, lookAnew, running, show } from "../state/log/log";
import { heardOf } from "../state/notes/closing";
import { logRead } from "../state/notes/search/reading";
import { keepOverboard, open } from "../state/overboard/overboard";
import { keepSaying } from "../state/pace/aloud";
import { keepBeat } from "../state/pace/beat";
import { knownCurrent } from "../state/pace/current/found";
import { keepPredicted } from "../state/pace/current/predicted";
import { keepFinding, keptRun } from "../state/pace/find";
import { keepFollowing } from "../state/pace/follow";
import { marks } from "../state/pace/marks";
import { keepMotion, typed } from "../state/pace/motion";
import { notches } from "../state/pace/notches";
import { keepPace } from "../state/pace/pace";
import { paceSettings } from "../state/pace/settings";
import { keepPump } from "../state/pace/spoon";
import { keepWheel, wheelKept } from "../state/pace/wheel";
import { keptHands } from "../state/plan/hands";
import { asked } from "../state/produced/asked";
import { keepSeason } from "../state/produced/keep";
import { askToPersist } from "../state/ready/checks";
import { keepTellingReady } from "../state/ready/tell";
import { bottomSet, keepBehind } from "../state/rise/behind";
import { keepOrders } from "../state/rise/orders";
import { forgotten, soundings } from "../state/rise/soundings";
import { keepLooking } from "../state/rise/watch";
import { fillRules, rules } from "../state/rules/rules";
import { ground } from "../state/tide/water";

const ofPace = [
  taken,
  alarmSettings,
  wheelKept,
  paceSettings,
  keptRun,
  knownCurrent,
  typed,
  marks,
  notches,
  ground,
];
const ofLearning = [clockAhead, heardOf, taught, leftOut, soundings, forgotten, bottomSet];

const ofFish = [rules, fishes, slush];
const ofCrew = [keptBoat, keptHeads, formerLimits, keptLists, waitingTicks];
/** Only pages show these. */
const ofPages = [keptHands, teachingKept, asked, ice, samples, forecast, floatPlan];

let rest: Promise<void> | undefined;

/** What pages need of what is kept, all of it, once. Never fails, as with all that is kept. */
export const loadPages = (): Promise<unknown> =>
  Promise.all([loadRest(), ...ofPages.map((kept) => kept.loaded())]);

/** What all that is kept going needs of it. */
export function loadRest(): Promise<void> {
  rest ??= Promise.all([...ofLearning, ...ofPace, ...ofFish, ...ofCrew].map((kept) => kept.loaded())).then(
    takeFormerLimits,
  );
  return rest;
}

/** Reads the log, if nobody has; from now on keeps it together with the boat's server, and knows where a trip is. */
async function beginLog(): Promise<void> {
  await logRead();
  if (running.value) await show(running.value.trip);
  document.addEventListener("visibilitychange", lookAnew);
  setInterval(lookAnew, 600_000);
  await inTurn([
    keepCrew,
    keepLately,
    () => keepSharing(mayChange),
    keepOverboard,
    keepExchanging,
    keepTellingReady,
    keepAsking,
    keepLookingWhoAsks,
    renew,
    keepSeason,
  ]);
  // Where Lines goes by the speed of now, before a trip runs too.
  const isFollowed = computed(() => atSea.value || paceSettings.value.follow);
  effect(() => (isFollowed.value ? watchPosition() : undefined));
  // From now on there is something to lose; and one who notes is likely to agree.
  effect(() => {
    if (atSea.value) askToPersist();
  });
  keepAwake(() => open.value.length > 0 || (atSea.value && paceSettings.value.awake));
}

/** Follows the boat's motion, and works out its pace. */
function beginPace(): void {
  keepTrack();
  keepMotion();
  keepPump();
  keepPredicted();
  keepPace();
  keepBeat();
  keepFinding();
  keepFollowing();
  keepSaying();
}

/** Listens to the boat's instruments, if there are any, and sounds what must be known. */
function beginInstruments(): void {
  keepHearing();
  keepTaking();
  keepWheel();
  keepReadyToSound();
  keepAlarming();
}

/** Fills in rules that nobody has entered yet. */
function keepFillingRules(): void {
  effect(() => {
    desk.restarts.value;
    rules.found.value;
    untracked(fillRules);
  });
}

/** One step after the other, so that a tap waits for none of it. */
async function inTurn(steps: (() => unknown)[]): Promise<void> {
  for (const step of steps) {
    await soon();
    step();
  }
}

/** Begins all of it. */
export async function begin(): Promise<void> {
  await loadRest();
  await inTurn([
    beginLog,
    beginPace,
    keepCalibrating,
    keepLooking,
    keepBehind,
    keepOrders,
    beginInstruments,
    keepLeaving,
    findAside,
    keepFillingRules,
  ]);
}
