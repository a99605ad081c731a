/** Taps with the rod tip, and the beat they make. */
import { effect, signal, untracked } from "@preact/signals";
import { Died, desk } from "../../base/desk/desk";
import type { BeatAnswer, Feel, PumpAnswer } from "../../base/desk/types/beat.gen";
import { now, since } from "../../base/position/moment";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { gear, pick } from "../gear/gear";
import { spoonNoted } from "../gear/names";
import { strike } from "../log/saying/say";
import { create } from "../notes/create";
import { marks, type SpoonMark } from "./marks";
import { holds } from "./motion";
import { asRead, pace } from "./pace";
import { asked, spoonId } from "./spoon";

/** Times of the taps in s, the latest last. */
export const taps = signal<number[]>([]);
export const beat = signal<BeatAnswer | undefined>(undefined);
/** How the spoon goes by that beat and the speed of now. */
export const judged = signal<PumpAnswer | undefined>(undefined);

/** More only bring back old beats. */
const most = 120;

/** For so long, in ms, the last taps tell the beat of now. */
const fresh = 60_000;

let lastTap = now();

export const isFresh = (): boolean => beat.value?.why === "" && since(lastTap) < fresh;

/** at: ms, by the running clock. */
export function tap(at: number): void {
  lastTap = now();
  taps.value = [...taps.value, at / 1000].slice(-most);
}

function anew(): void {
  taps.value = [];
  beat.value = undefined;
  judged.value = undefined;
}

/** Speed through the water now, where it is known; 0 where not. */
export function waterSpeed(): number {
  const now = pace.value;
  return now?.currentKnown && holds(now.motion) ? now.water.mid : 0;
}

/** Works out the beat of every tap, and what it says of the spoon. */
export function keepBeat(): void {
  effect(() => {
    const times = taps.value;
    const spoon = spoonId.value;
    marks.signal.value;
    if (times.length > 0) untracked(() => workOut(times, spoon));
  });
}

async function workOut(times: number[], spoon: string | undefined): Promise<void> {
  const first = times[0] as number;
  try {
    const answer = await desk.newest("beat", { times: times.map((time) => time - first) });
    if (!answer || taps.value.length === 0) return;
    beat.value = answer;
    if (!spoon || answer.why !== "") return;
    judged.value = await desk.ask("pump", {
      ...asked(spoon),
      beat: Math.min(answer.beat.mid, 20),
      speed: waterSpeed(),
    });
  } catch (fault) {
    if (!(fault instanceof Died)) throw fault;
  }
}

/** The beat of now; 0 while there is none. */
const beatNow = (): number => (beat.value?.why === "" ? beat.value.beat.mid : 0);

/** Notes beat and speed, with how it felt if that is told: then the spoon learns from it too. One tap, undone in one. */
export function noteBeat(spoon: string, feel?: Feel): void {
  const beat = beatNow();
  const speed = waterSpeed();
  const record = create("beat", {
    lure: spoonNoted(pick(gear.value.spoons, spoon)),
    ...(beat > 0 && { beat }),
    ...(speed > 0 && { speed: asRead(speed) }),
    ...(feel && { feel }),
  });
  const mark: SpoonMark | undefined = feel && { spoon, beat, speed, feel, at: Date.now() };
  if (mark) marks.set([...marks.value, mark]);
  const before = taps.value;
  anew();
  offerUndo(text.pace.beat.noted(feel), () => {
    if (mark) marks.set(marks.value.filter((one) => one !== mark));
    strike(record);
    taps.value = before;
  });
}
