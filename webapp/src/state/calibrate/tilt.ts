/** The phone's own tilt, held along the wire: gravity along its long edge, gathered for ten seconds. */

export interface Tilt {
  /** Below level, rad, and how far it swung about that, one standard deviation. */
  angle: number;
  spread: number;
}

export const heldFor = 10_000;

/** More than this a hand in a seaway does not hold; what swings more is no reading. A judgement. */
export const mostSwing = (4 * Math.PI) / 180;

/** Angle of the long edge against level, whichever end is up; undefined where gravity was not told. */
export function tiltOf(x: number | null, y: number | null, z: number | null): number | undefined {
  const all = Math.hypot(x ?? 0, y ?? 0, z ?? 0);
  return y === null || all < 1 ? undefined : Math.asin(Math.min(1, Math.abs(y) / all));
}

/** Mean and spread of what was gathered; undefined where there is too little. */
export function gathered(tilts: number[]): Tilt | undefined {
  if (tilts.length < 20) return undefined;
  const angle = tilts.reduce((sum, tilt) => sum + tilt, 0) / tilts.length;
  const spread = Math.sqrt(tilts.reduce((sum, tilt) => sum + (tilt - angle) ** 2, 0) / (tilts.length - 1));
  return { angle, spread };
}

/** Asks the phone for its motion where it wants to be asked, as iPhones do; from within a tap. */
export async function mayFeel(): Promise<boolean> {
  if (typeof DeviceMotionEvent === "undefined") return false;
  const { requestPermission } = DeviceMotionEvent as unknown as { requestPermission?: () => Promise<string> };
  return !requestPermission || (await requestPermission().catch(() => "denied")) === "granted";
}

/** Gathers for ten seconds; undefined where the phone told nothing. Returns at once the way to stop. */
export function gather(done: (tilt: Tilt | undefined) => void): () => void {
  const tilts: number[] = [];
  const feel = ({ accelerationIncludingGravity: a }: DeviceMotionEvent) => {
    const tilt = a && tiltOf(a.x, a.y, a.z);
    if (tilt !== undefined && tilt !== null) tilts.push(tilt);
  };
  addEventListener("devicemotion", feel);
  const stop = () => {
    removeEventListener("devicemotion", feel);
    clearTimeout(timer);
  };
  const timer = setTimeout(() => {
    stop();
    done(gathered(tilts));
  }, heldFor);
  return stop;
}
