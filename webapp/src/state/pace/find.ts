/** Finding the current: the run that is under way, and what it tells so far. */
import { batch, effect, signal, untracked } from "@preact/signals";
import { Died, desk } from "../../base/desk/desk";
import type { Answer, Kind, Sample } from "../../base/desk/types/current.gen";
import { track } from "../../base/position/track";
import { holds, motion, samplesOf } from "./motion";

export interface Run {
  kind: Kind;
  /** What it is made of: fixes of a turn, or the means of straight legs. */
  samples: Sample[];
  /** Of a turn: when it began, ms on the running clock. */
  from: number;
}

export const run = signal<Run | undefined>(undefined);
/** What the run tells, of the samples it was told from. */
export const told = signal<{ run: Run; answer: Answer } | undefined>(undefined);

/** The desk takes no more of them, and no turn is so long. */
const most = 1500;

export function begin(kind: Kind): void {
  batch(() => {
    told.value = undefined;
    run.value = { kind, samples: [], from: performance.now() };
  });
}

export function stop(): void {
  batch(() => {
    run.value = undefined;
    told.value = undefined;
  });
}

/** The motion of now as a straight leg. False: it is not known. */
export function takeLeg(): boolean {
  const now = motion.value;
  const of = run.value;
  if (!of || !now || now.course === undefined || !holds(now)) return false;
  run.value = { ...of, samples: [...of.samples, { speed: now.speed, course: now.course }] };
  return true;
}

export function dropLeg(): void {
  const of = run.value;
  if (of) run.value = { ...of, samples: of.samples.slice(0, -1) };
}

/** Adds every fix to a turn, and asks what the run tells. */
export function keepFinding(): void {
  effect(() => {
    const velocities = track.value;
    const of = run.peek();
    if (of?.kind !== "turn") return;
    const samples = samplesOf(velocities.filter(({ at }) => at >= of.from)).slice(-most);
    if (samples.length > 0) run.value = { ...of, samples };
  });
  effect(() => {
    const of = run.value;
    desk.restarts.value;
    if (!of) return;
    if (of.samples.length === 0) told.value = undefined;
    else untracked(() => ask(of));
  });
}

async function ask(of: Run): Promise<void> {
  try {
    const answer = await desk.newest("drift", { samples: of.samples, kind: of.kind });
    if (answer && run.value?.from === of.from) told.value = { run: of, answer };
  } catch (fault) {
    if (!(fault instanceof Died)) throw fault;
  }
}
