/** Words of the plan of the spread. Numbers come in already written, with their units. */
import type { Length, Order } from "../../desk/types/plan.gen";
import type { Bound } from "../../desk/types/towline.gen";

export const plan = {
  plan: {
    title: "Plan the spread",
    what: (speed: string, bottom: string, low: string, high: string) =>
      `At ${speed} in ${bottom} of water, wanted ${low} to ${high} off bottom.`,
    goFirst: (now: string, speed: string) => `Lines has ${now}: go ${speed} first.`,
    people: "People aboard",
    peopleFrom: {
      trip: "as noted in this trip",
      rods: "enough for all rods",
      own: "as set here",
    },
    drails: "Drails aboard",
    drailsWhat: "How many of each. The plan uses no more than these.",
    noDrails: "none",
    times: (count: string, weight: string) => `${count}\u00a0×\u00a0${weight}`,
    rides: (depth: string, off: string, astern: string) => `Rides at ${depth}, ${off}, ${astern} astern.`,
    asSet: (odds: string) => `As it is set now: ${odds}`,
    reasons: {
      middle: "Aimed at the middle of what is wanted",
      deeper: (by: string) => `Aimed ${by} below the middle of what is wanted, to keep apart`,
      higher: (by: string) => `Aimed ${by} above the middle of what is wanted, to touch less or keep apart`,
      farthest: "the farthest astern",
      ahead: (distance: string, rod: number) => `${distance} ahead of the lure of rod\u00a0${rod}`,
      beside: "It rides beside another lure: nothing aboard sets them further apart.",
      stays: (tended: string) =>
        `Stays aboard: one steers, and each other one tends ${tended} rods (common practice, no source).`,
      sinker: (own: string, better: string) =>
        `This three-way cannot be deep enough with ${own}; ${better} would do.`,
      speed: (speed: string) => `At ${speed} it would get there.`,
      backing: (length: string) => `${length} of backing goes out past the wire.`,
      lengths: {
        "": "",
        lighter: "Long because it is light, as the outer ones go: more weight would make it shorter",
        "drails missing": "So long for want of a heavier drail aboard",
        odds: "So long to ride at its depth and apart from the others",
        "by its sinker": "So long because its three-way goes by its own sinker",
        "beside a three-way": "So much longer because a three-way beside it goes by its own sinker",
      } satisfies { [L in Length]: string },
      alone: (why: string) => `Nothing to propose: ${why}.`,
    },
    missing: (drails: string[]) => `Better with drails that are not aboard: ${drails.join(", ")}.`,
    closest: (a: string, b: string, distance: string, astern: string) =>
      `Closest together: ${a} and ${b}, ${distance} apart, ${astern} astern, on a straight course. A turn brings lines closer.`,
    turnHolds: (quarter: string) =>
      `In a turn of 90° in ${quarter}, to either side, all lures keep off the bottom and the lines apart.`,
    raised: "For that, all run in the upper part of what is wanted.",
    spaced: "For that, they are further apart astern.",
    turnBreaks: (quarter: string, side: string, why: string) =>
      `Not for a turn of 90° in ${quarter}: to ${side.toLowerCase()}, ${why}. Turn wider.`,
    breaks: {
      none: () => "",
      bottom: (rod: string) => `the lure of ${rod} comes too near the bottom`,
      lines: (rod: string, other: string) => `the lines of ${rod} and ${other} come too near to each other`,
      air: (rod: string) => `a weight or the lure of ${rod} comes out of the water`,
      collapse: (rod: string) => `the tow of ${rod} collapses`,
    } satisfies { [B in Bound]: (rod: string, other: string) => string },
    howTurns: "How the spread turns",
    alike:
      "Some rods stand equally far from the middle, as their places have it. Set how far out each one stands, under Saved gear, Places.",
    order: "Order",
    unordered: {
      "": "",
      "drails missing":
        "Common practice sends the farther outboard farther astern, the inner ones no lighter: the drails for that are not aboard.",
      "three-way by its sinker":
        "Common practice sends the farther outboard farther astern, the inner ones no lighter: a three-way goes by its own sinker, so it is out of that order.",
      "outer line too short":
        "Common practice sends the farther outboard farther astern, the inner ones no lighter: an outer rod has too little line for that.",
      "order would miss":
        "Common practice sends the farther outboard farther astern, the inner ones no lighter: so some would miss what is wanted, or touch.",
    } satisfies { [O in Order]: string },
    out: (rods: string[]) => `Let out: ${rods.join(", ")}.`,
    in: (rods: string[]) => `Take in: ${rods.join(", ")}.`,
    practice: "The farthest astern goes out first and comes in last (common practice, no source).",
    use: "Use it on Lines",
    used: "Lines is set as planned.",
    usedWithout: (rods: string[]) => `Lines is set as planned; ${rods.join(", ")} taken in.`,
    aloud: "Read it out",
    cardOf: (at: number, all: number) => `${at} of ${all}`,
    noDrail: "No drail",
    letOut: (length: string) => `Let out ${length}`,
    order1: "Goes out first",
    orderNext: "Next one out",
    orderLast: "Last one out",
    before: "Rod before",
    next: "Next rod",
    cautions: [
      "Gloves on. Steer straight while wire goes out.",
      "Never a turn of wire round a hand. Fingers off the spool: brake with the drag.",
      "Look behind you before the spoon swings. Keep out of the line of a loaded rod.",
    ],
  },
};
