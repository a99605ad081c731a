/** What the desk is asked about the spread, from the gear and spread kept here. */
import { signal } from "@preact/signals";
import type { Answer as Water } from "../../base/desk/types/seawater.gen";
import type * as desk from "../../base/desk/types/towline.gen";
import { type Gear, type LineGear, pick, type Rig } from "../gear/gear";
import { spoonKind, wireKind } from "../gear/names";
import type { Doubts } from "./doubt";
import { type Kinds, learnedOf } from "./learned";
import { type Rod, type Spread, wantedSpeeds } from "./spread";

const line = ({ diameter, density, strum }: LineGear): desk.Line => ({ diameter, density, strum });

/** A rig with a drail of this mass at the join of wire and leader, 0 for none, and its own sinker or another. */
export function rigFor(gear: Gear, rig: Rig, drail: number, sinker: number): desk.Rig {
  const { mass, density, dragArea, liftArea } = pick(gear.spoons, rig.spoon);
  return {
    wire: line(pick(gear.wires, rig.wire)),
    wireLength: rig.wireLength,
    backing: line(pick(gear.nylons, rig.backing)),
    backingLength: rig.backingLength,
    leader: line(pick(gear.nylons, rig.leader)),
    leaderLength: rig.leaderLength,
    lure: { mass, density, dragArea, liftArea },
    drails: drail > 0 ? [{ mass: drail, above: rig.leaderLength }] : [],
    ...(rig.dropper && {
      dropper: {
        line: line(pick(gear.nylons, rig.dropper.line)),
        length: rig.dropper.length,
        sinker: sinker || rig.dropper.sinker,
      },
    }),
  };
}

/** A rod as gear and spread have it, before any touch. */
export function bareRod(gear: Gear, rod: Rod): desk.Rod {
  const { tipHeight, abeam, ahead } = pick(gear.places, rod.place);
  return {
    tipHeight,
    abeam,
    ahead,
    lineOut: rod.lineOut,
    rig: rigFor(gear, pick(gear.rigs, rod.rig), rod.drail, rod.sinker),
  };
}

/** With what this boat's own touches have taught of it. */
export function rodFor(gear: Gear, rod: Rod): desk.Rod {
  const learned = learnedOf(kindsOn(gear, pick(gear.rigs, rod.rig)));
  return { ...bareRod(gear, rod), ...(learned && { learned }), ...(rod.planned && { planned: rod.planned }) };
}

/** What touches teach is kept by kind of wire and kind of lure. */
export const kindsOn = (gear: Gear, rig: Rig): Kinds => ({
  wire: wireKind(pick(gear.wires, rig.wire)),
  lure: spoonKind(pick(gear.spoons, rig.spoon)),
});

/** Without water given, the desk takes its own. */
export const seaFor = ({ speed, bottom }: Spread, water: Water | undefined): desk.Sea => ({
  speed,
  bottom,
  ...(water && { water: { density: water.density, viscosity: water.viscosity } }),
});

/** The band above the bottom that is wanted, and how fast, where Pace knows; else any speed is right. */
export const wantedFor = ({ wanted }: Spread): desk.Wanted => ({
  ...wanted,
  ...(wantedSpeeds.value && { speedLow: wantedSpeeds.value.low, speedHigh: wantedSpeeds.value.high }),
});

/** How well the bottom is known. */
export const groundFor = ({ bottomDoubt, tideDoubt }: Spread) => ({ bottomDoubt, tideDoubt });

/** The same, and how near it one dares to go. */
export const bottomFor = (spread: Spread) => ({ ...groundFor(spread), caution: spread.caution });

/** The depth set is what the boat's sounder reads at this moment: the tide has changed nothing of it since. */
export const soundedNow = signal(false);

/** How well it is known now. */
export const groundNow = (spread: Spread) => ({
  ...groundFor(spread),
  ...(soundedNow.value && { tideDoubt: 0 }),
});

/** The same, and how near it one dares to go. */
export const bottomNow = (spread: Spread) => ({ ...groundNow(spread), caution: spread.caution });

/**
 * How much line of a rod a rise ahead wants taken in, m, by its id, until it has passed; 0: none by now. Nothing else is to be
 * done about the rod before, and none goes deeper. Set by what looks ahead, which comes after what is shown first.
 */
export const takeIn = signal<{ [rod: string]: number }>({});

export const spreadFor = (
  gear: Gear,
  spread: Spread,
  water: Water | undefined,
  doubt: Doubts,
): desk.Spread => ({
  sea: seaFor(spread, water),
  wanted: wantedFor(spread),
  doubt,
  ...bottomFor(spread),
  rods: spread.rods.map((rod) => rodFor(gear, rod)),
});

/** Mass of the sinker of its three-way; undefined without one. */
export function sinkerOn(gear: Gear, rod: Pick<Rod, "rig" | "sinker">): number | undefined {
  const { dropper } = pick(gear.rigs, rod.rig);
  return dropper ? rod.sinker || dropper.sinker : undefined;
}

/** Mass of all that the rule of thumb counts as weight. */
export const weightOn = (gear: Gear, rod: Rod): number => rod.drail + (sinkerOn(gear, rod) ?? 0);
