/** What of the answer is worth a warning. */
import type { Answer, Coming } from "../../base/desk/types/rise.gen";

export interface RodWarning {
  /** Index of the rod. */
  rod: number;
  touches: boolean;
  /** s from when it was asked. */
  in: number;
  /** m; 0: it does already, or none does it. */
  lineIn: number;
}

export interface Warning {
  /** The least depth ahead of these lures, m. */
  depth: number;
  /** Through the water, m/s: it lifts all of them; 0: none does. */
  speed: number;
  rods: RodWarning[];
}

/** A rise that leaves less than this part of the water under a lure is told of: a judgement. */
const part = 0.5;

/**
 * A lure that lies on the bottom as set on Lines, or may touch it, is told there; here only what comes on top of that. Where
 * the instruments tell how deep the water is where the lure is, that counts: what is set may be the ground that is coming.
 */
export function warningOf({ rods }: Answer, bottom: number): Warning | undefined {
  const at = rods.map((coming, rod) => ({ coming, rod })).filter(({ coming }) => rises(coming, bottom));
  if (at.length === 0) return undefined;
  const speeds = at.map(({ coming }) => coming.speed);
  return {
    depth: Math.min(...at.map(({ coming }) => coming.shoalest)),
    speed: speeds.every((speed) => speed > 0) ? Math.max(...speeds) : 0,
    rods: at
      .map(({ coming, rod }) => ({
        rod,
        touches: coming.verdict === "touches",
        in: coming.verdict === "touches" ? coming.in : coming.shoalestIn,
        lineIn: coming.lineIn,
      }))
      .sort((a, b) => a.in - b.in),
  };
}

function rises({ trouble, verdict, depth, shoalest, over }: Coming, set: number): boolean {
  const bottom = over > 0 ? over : set;
  if (trouble || depth.mid >= bottom) return false;
  if (verdict === "touches") return true;
  // Where nobody knows how deep it is there, nothing is a part of it.
  return (
    verdict === "comes close" && Number.isFinite(bottom) && shoalest - depth.mid < part * (bottom - depth.mid)
  );
}
