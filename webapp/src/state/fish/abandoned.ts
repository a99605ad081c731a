/** A fish that nobody has gone on with leaves what is in hand by itself, with the way back. */
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { change, type Fish, fishes, inHand } from "./fishes";

/** After so many ms: a judgement. One that bleeds or lies in slush is kept, however long it takes. */
const forgotten = 2 * 3_600_000;
const every = 60_000;

/** Those that somebody has taken back stay. */
const wanted = new Set<string>();

const isAbandoned = ({ id, step, up }: Fish, now: number): boolean =>
  !["bleed", "slush"].includes(step) && !wanted.has(id) && now - up.wall > forgotten;

export function leave(now: number): void {
  const gone = inHand().filter((fish) => isAbandoned(fish, now));
  if (gone.length === 0) return;
  for (const { id } of gone) change(id, { step: "over" });
  offerUndo(text.fish.left(gone.length), () => {
    for (const { id, step } of gone) {
      wanted.add(id);
      change(id, { step });
    }
  });
}

/** Looks now and then. Returns the way to stop it. */
export function keepLeaving(): () => void {
  const look = () => fishes.value.length > 0 && leave(Date.now());
  look();
  const timer = setInterval(look, every);
  return () => clearInterval(timer);
}
