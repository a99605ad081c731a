/** Words of what touches teach, of the plan of the spread, and of shallow ahead. Numbers come in already written, with their units. */
import type { Verdict } from "../../desk/types/rise.gen";
import type { Bound } from "../../desk/types/towline.gen";

export const learn = {
  learn: {
    title: "What touches tell",
    link: (used: number, odd: number) =>
      `${used === 0 ? "Touches: none yet" : used === 1 ? "1 touch counts" : `${used} touches count`}${
        odd > 0 ? (odd === 1 ? ", 1 contradicts" : `, ${odd} contradict`) : ""
      }`,
    howSure: "How sure",
    none: "Nothing is learned yet. When a lure just ticks the bottom in a depth you can read off the sounder, note it: three or four touches narrow the ±.",
    used: (count: number) =>
      count === 1 ? "1 touch counts in every depth." : `${count} touches count in every depth.`,
    setAside: "Depths are told as computed before any touch.",
    before: "Before any touch",
    after: (used: number) => (used === 1 ? "After 1 touch" : `After ${used} touches`),
    bottomAt: (depth: string) => `Dashed line: the bottom at ${depth}.`,
    clear: "It ran clear",
    clearWhat: "Only if you are sure that nothing touched here. Best where it nearly did.",
    at: (lineOut: string, bottom: string) => `${lineOut} out in ${bottom}`,
    verdicts: {
      agrees: "Agrees with the others",
      "cannot be computed": "Cannot be computed with: it does not count",
      untold: "Does not say how the rod was rigged, or names another rod since: it does not count",
      uncounted: "Not counted",
      deeper: (off: string) => `By this one the line lay ${off} deeper than all others say.`,
      shallower: (off: string) => `By this one the line lay ${off} less deep than all others say.`,
      shouldHaveTouched: (off: string) => `By all others the line lay ${off} deeper than the water here.`,
    },
    contradicts: "This one contradicts the others.",
    contradicting: (touch: string) => `A touch contradicts the others: ${touch}.`,
    contradictsWhy:
      "It may be a wrong rod, depth or length, weed, or a hump. It counts less; strike it out if it is wrong.",
    strike: "Strike it out",
    look: "Look",
    lineDrag: (mid: string, low: string, high: string) =>
      `This line drags ${mid} times as hard as reckoned (${low} to ${high}).`,
    next: "What would tell more",
    tryIt: (rod: string, lineOut: string, drail: string | undefined, now: string | undefined, then: string) =>
      `${rod}: let it tick at about ${lineOut} out ${drail ? `with ${drail}` : "without a drail"}. ${
        now
          ? `That would bring the ± of all rods from ${now} to ${then}.`
          : `The ± of all rods would stay near ${then}.`
      }`,
    nextHow: (bottom: string) =>
      `In ${bottom} of water, over clean ground only: ease line out until it just ticks, note the touch, take line in. A wire that fouls is loaded by the whole boat.`,
    depths: "Depths on Lines",
    withTouches: "With what touches tell",
    withoutTouches: "As computed before any touch",
    all: "All of them",
    how: "A touch is noted with line, drail, speed and depth of water as they are set on Lines, so set these first. Touches of every phone and trip on this phone count together, older ones a little less. What is learned of a wire or lure counts for all of its name, and half for others.",
  },

  plan: {
    title: "Plan the spread",
    what: (speed: string, bottom: string, low: string, high: string) =>
      `At ${speed} in ${bottom} of water, wanted ${low} to ${high} off bottom.`,
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
    reasons: {
      middle: "Aimed at the middle of the band",
      deeper: (by: string) => `Aimed ${by} below the middle of the band, to keep apart`,
      higher: (by: string) => `Aimed ${by} above the middle of the band, to keep apart`,
      farthest: "the farthest astern",
      ahead: (distance: string, rod: number) => `${distance} ahead of the lure of rod\u00a0${rod}`,
      beside: "It rides beside another lure: nothing aboard sets them further apart.",
      stays: (tended: string) =>
        `Stays aboard: one steers, and each other one tends ${tended} rods (common practice, no source).`,
      speed: (speed: string) => `At ${speed} it would get there.`,
      alone: (why: string) => `Nothing to propose: ${why}.`,
    },
    missing: (drails: string[]) => `Better with drails that are not aboard: ${drails.join(", ")}.`,
    closest: (a: string, b: string, distance: string, astern: string) =>
      `Closest together: ${a} and ${b}, ${distance} apart, ${astern} astern, on a straight course. A turn brings lines closer.`,
    turnHolds: (quarter: string) =>
      `In a turn of 90° in ${quarter}, to either side, all lures keep off the bottom and the lines apart.`,
    raised: "For that, all run in the upper part of the band.",
    spaced: "For that, they are further apart astern.",
    turnBreaks: (quarter: string, side: string, why: string) =>
      `Not for a turn of 90° in ${quarter}: to ${side.toLowerCase()}, ${why}. Turn wider.`,
    breaks: {
      none: () => "",
      bottom: (rod: string) => `the lure of ${rod} comes too near the bottom`,
      lines: (rod: string, other: string) => `the lines of ${rod} and ${other} come too near to each other`,
      collapse: (rod: string) => `the tow of ${rod} collapses`,
    } satisfies { [B in Bound]: (rod: string, other: string) => string },
    howTurns: "How the spread turns",
    alike:
      "Some rods stand equally far from the middle, as their places have it. Set how far out each one stands, under Saved gear, Places.",
    order: "Order",
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

  rise: {
    title: "Depth now",
    link: (depth: string, age: string) => `Sounder: ${depth}, ${age} ago`,
    linkNone: "Shallow ahead?",
    now: "Depth now",
    what: "Step or type what the sounder reads whenever it changes. The lures come there later, and Lines warns before one is over a rise.",
    still: (depth: string) => `Still ${depth}`,
    ago: (age: string) => `${age} ago`,
    read: (depth: string, age: string) => `${depth}, ${age}`,
    history: "Read so far",
    forget: "Forget these",
    forgotten: "Soundings forgotten.",
    setBottom: (depth: string, set: string) => `Set Bottom on Lines to ${depth} (now ${set})`,
    bottomSet: (depth: string) => `Bottom on Lines is ${depth}.`,
    byPace: (speed: string) => `Reckoned with ${speed} over the ground, from Pace.`,
    byLines: (speed: string) => `Pace has no speed: reckoned with the ${speed} of Lines over the ground.`,
    how: "On a straight course; between two readings the bottom is taken to be straight.",
    coming: (seconds: string | undefined, verdict: string) =>
      `${seconds ? `here in ${seconds} s` : "here now"}; ${verdict}`,
    verdicts: {
      "stays clear": "stays clear",
      "comes close": "may touch on the way",
      touches: "touches on the way",
      "not sounded": "nothing sounded ahead of it",
    } satisfies { [V in Verdict]: string },
    ahead: (depth: string, rod: number, touches: boolean, seconds: string | undefined) =>
      `Rise ahead, ${depth}: rod\u00a0${rod} ${touches ? "touches" : "comes close"} ${seconds ? `in ${seconds}\u00a0s` : "now"}.`,
    speed: (speed: string) => `Speed up to ${speed}.`,
    lineOf: (lineIn: string, rod: number, first: boolean) => `${lineIn} on ${first ? "rod\u00a0" : ""}${rod}`,
    takeIn: (lines: string[], or: boolean) => `${or ? "Or take" : "Take"} in ${lines.join(", ")}.`,
  },
};
