/** What of the answer is worth a warning. */
import type { Answer, Coming } from "../../base/desk/types/rise.gen";
import { lineUp, speedUp } from "../../base/units/show";

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
  /** Through the water, m/s: it lifts all that touch, as the rest are told line to take in; 0: none does. */
  speed: number;
  /** Those that still run clear come first, by their time: that is what there is left to do it in. */
  rods: RodWarning[];
}

/** A rise that leaves less than this part of the water under a lure is told of: a judgement. */
const part = 0.5;

/**
 * Depths that differ by less, m, are one: about twice what a reading and the tide since are taken to be in doubt by. A
 * judgement.
 */
export const apart = 1;

/** Less line, m, nobody takes in. */
const least = 1;

/**
 * That a lure lies on the bottom as set on Lines, or may touch it, is told there; here what comes on top of that. Where the
 * instruments tell how deep the water is where the lure is, that counts: what is set may be the ground that is coming. Once
 * one lure is warned of, all that touch or may are, so that what is told to do lifts them all; by as much line as can be told, and
 * no less.
 */
export function warningOf({ rods }: Answer, bottom: number): Warning | undefined {
  const all = rods.map((coming, rod) => ({ rod, coming, ...placed(coming, bottom) }));
  if (!all.some(({ rises }) => rises)) return undefined;
  const at = all
    .filter(({ rises, touches, coming }) => rises || touches || coming.lineIn > 0)
    .sort((a, b) => Number(a.lies) - Number(b.lies) || a.in - b.in);
  const speeds = at.map(({ coming }) => coming.speed);
  // One that may touch and that no speed lifts takes the order from none that will.
  const musts = at.some(({ touches }) => touches) ? at.filter(({ touches }) => touches) : at;
  return {
    depth: Math.min(...at.map(({ coming }) => coming.shoalest)),
    speed: musts.every(({ coming }) => coming.speed > 0) ? speedUp(Math.max(...speeds)) : 0,
    rods: at.map(({ rod, touches, in: left, coming: { lineIn } }) => ({
      rod,
      touches,
      in: left,
      lineIn: lineIn > 0 ? lineUp(Math.max(lineIn, least)) : 0,
    })),
  };
}

export interface Orders {
  /** The rod that is named: the first for which there is something to do. */
  first: RodWarning | undefined;
  /** By their numbers on screen, those that touch and that neither a speed nor less line keeps clear. */
  whole: number[];
  /** There is nothing to do yet but to be ready. */
  ready: boolean;
}

/** What is told to do, besides the speed and the line to take in: no rod is named without an order. */
export function ordersOf({ speed, rods }: Warning): Orders {
  const due = rods.filter(({ touches, lineIn }) => touches || lineIn > 0);
  const told = speed > 0 && due.length === 0 ? rods : due;
  return {
    first: told[0] ?? rods[0],
    whole: told.filter(({ lineIn }) => speed === 0 && lineIn === 0).map(({ rod }) => rod + 1),
    ready: told.length === 0,
  };
}

/** Where a lure is to the ground of now, and to what comes. */
function placed({ trouble, verdict, depth, shoalest, over, in: left, shoalestIn }: Coming, bottom: number) {
  const ground = over > 0 ? over : bottom;
  const lies = depth.mid >= ground;
  const touches = !trouble && verdict === "touches";
  // Where nobody knows how deep it is there, nothing is a part of it.
  const close = verdict === "comes close" && !lies && Number.isFinite(ground);
  return {
    lies,
    touches,
    in: touches ? left : shoalestIn,
    rises:
      (touches && (!lies || ground - shoalest > apart)) ||
      (close && shoalest - depth.mid < part * (ground - depth.mid)),
  };
}
