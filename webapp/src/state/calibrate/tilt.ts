/** Gravity as the phone feels it while it is held along the wire, gathered for ten seconds; the desk makes an angle of it. */
import { Died, desk, Refused } from "../../base/desk/desk";
import type { Held, HeldAnswer } from "../../base/desk/types/calibrate.gen";

export const heldFor = 10_000;

/** Asks the phone for its motion where it wants to be asked, as iPhones do; from within a tap. */
export async function mayFeel(): Promise<boolean> {
  if (typeof DeviceMotionEvent === "undefined") return false;
  const { requestPermission } = DeviceMotionEvent as unknown as { requestPermission?: () => Promise<string> };
  return !requestPermission || (await requestPermission().catch(() => "denied")) === "granted";
}

/** Gathers for ten seconds. Returns at once the way to stop. */
export function gather(done: (held: Held) => void): () => void {
  const held: Held = { across: [], along: [], up: [] };
  const feel = ({ accelerationIncludingGravity: felt }: DeviceMotionEvent) => {
    const { x, y, z } = felt ?? { x: null, y: null, z: null };
    if (y === null) return; // a phone without the sensor tells of nothing
    held.across.push(x ?? 0);
    held.along.push(y);
    held.up.push(z ?? 0);
  };
  addEventListener("devicemotion", feel);
  const stop = () => {
    removeEventListener("devicemotion", feel);
    clearTimeout(timer);
  };
  const timer = setTimeout(() => {
    stop();
    done(held);
  }, heldFor);
  return stop;
}

/** What was read; undefined where the phone told too little. */
export async function angleOf(held: Held): Promise<HeldAnswer | undefined> {
  try {
    const read = await desk.ask("sight", held);
    return read.enough ? read : undefined;
  } catch (fault) {
    if (fault instanceof Died || fault instanceof Refused) return undefined;
    throw fault;
  }
}
