/** Finding the current: the run that is under way, and what it tells so far. */
import { batch, effect, signal, untracked } from "@preact/signals";
import { Died, desk } from "../../base/desk/desk";
import { type Answer, type Kind, limits, type Sample } from "../../base/desk/types/current.gen";
import { track } from "../../base/position/track";
import { Kept } from "../../base/store/kept";
import { flag, list, number, oneOf, orNone, record, within } from "../../base/store/shape";
import { holds, motion, samplesOf } from "./motion";

export interface Run {
  kind: Kind;
  /** What it is made of: fixes of a turn, or the means of straight legs. */
  samples: Sample[];
  /** When it began, and when it was added to last, ms of the wall clock: a reload does not end it. */
  from: number;
  last: number;
}

export const run = signal<Run | undefined>(undefined);

/** The desk takes no more samples of them, and no turn is so long. */
const most = 1500;

const of = limits.Sample;

/** The run as it is kept, for a page that is loaded anew. */
export const keptRun = new Kept<Run | null>(
  "run for the current",
  orNone(
    record<Run>({
      kind: oneOf("turn", "legs"),
      samples: list(
        record<Required<Sample>>(
          {
            time: within(of.time),
            speed: within(of.speed),
            course: within(of.course),
            accuracy: within(of.accuracy),
            moved: flag,
          },
          // An app of before told none.
          { moved: false },
        ),
        most,
      ),
      from: number,
      last: number,
    }),
  ),
  null,
);

/** A run that nothing was added to for so long, in ms, is over; and a turn under way is kept as often. */
const forgotten = 600_000;
const keptEvery = 5000;
/** What the run tells, of the samples it was told from. */
export const told = signal<{ run: Run; answer: Answer } | undefined>(undefined);

export function begin(kind: Kind): void {
  const now = Date.now();
  batch(() => {
    told.value = undefined;
    run.value = { kind, samples: [], from: now, last: now };
  });
}

function goOn(of: Run, samples: Sample[]): void {
  run.value = { ...of, samples: samples.slice(-most), last: Date.now() };
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
  goOn(of, [...of.samples, { speed: now.speed, course: now.course, time: 0, accuracy: 0 }]);
  return true;
}

export function dropLeg(): void {
  const of = run.value;
  if (of) goOn(of, of.samples.slice(0, -1));
}

/** Adds every fix to a turn, and asks what the run tells. */
export function keepFinding(): void {
  const kept = keptRun.value;
  if (kept && Date.now() - kept.last < forgotten && kept.last <= Date.now()) run.value = kept;
  let heard = track.peek().at(-1);
  effect(() => {
    const newest = track.value.at(-1);
    const of = run.peek();
    if (of?.kind !== "turn" || !newest || newest === heard) return;
    heard = newest;
    const time = (Date.now() - performance.now() + newest.at - of.from) / 1000;
    // A fix of before the run, or a clock that was set: it tells nothing of this turn.
    if (time < 0 || time > limits.Sample.time.max) return;
    const [sample] = samplesOf([newest]);
    if (sample) goOn(of, [...of.samples, { ...sample, time }]);
  });
  let written = Number.NEGATIVE_INFINITY;
  effect(() => {
    const now = run.value;
    const soon = now?.kind === "turn" && now.samples.length > 0;
    if (soon && performance.now() - written < keptEvery) return;
    written = performance.now();
    if (now || keptRun.signal.peek()) keptRun.set(now ?? null);
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
