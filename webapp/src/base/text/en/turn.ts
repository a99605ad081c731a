/** Words of the turn. Numbers come in already written, with their units. */
import type { Bound, Side } from "../../desk/types/towline.gen";

export const turn = {
  turn: {
    title: "In a turn",
    ask: "In a turn",
    what: (speed: string) =>
      `A steady turn at ${speed}, lines as set on Lines. A lure on the inside goes slower, one outside faster; what that does to its depth stands with each rod.`,
    side: "Turn to",
    sides: { port: "Port", starboard: "Starboard" } satisfies { [S in Side]: string },
    tightness: "Tightness of the turn",
    straight: "Straight ahead",
    tight: (quarter: string, radius: string, whole: string) =>
      `90° in ${quarter}: radius ${radius}, whole circle ${whole}`,
    above: "from above",
    beside: (bottom: string) => `from the side, ${bottom}`,
    aboveWords: (side: string) => `The spread from above, in a turn to ${side.toLowerCase()}.`,
    besideWords: "The spread from the side, in the turn.",
    between: (low: string, high: string) => `Nine times in ten between ${low} and ${high}`,
    asStraight: "as on a straight course",
    sinks: (by: string) => `${by} deeper`,
    rises: (by: string) => `${by} higher`,
    collapsed: "The tow collapses: the line sinks in a heap. Turn wider.",
    closest: (pair: string, distance: string, depth: string) =>
      `Nearest to each other: ${pair}, ${distance} apart, ${depth} down.`,
    tightest: "How tight may it be?",
    notTighter: (quarter: string, radius: string, why: string) =>
      `90° in no less than ${quarter}, radius ${radius}. Tighter, ${why}.`,
    neverTight: (why: string) => `None at all: already straight ahead, ${why}.`,
    anyTurn: "As tight as this boat can turn.",
    bounds: {
      none: () => "",
      bottom: (rod: string, part: string) => `${part} of ${rod} comes too near the bottom`,
      lines: () => "two lines come too near to each other",
      air: (rod: string) => `a weight or the lure of ${rod} comes out of the water`,
      collapse: (rod: string) => `the tow of ${rod} collapses`,
    } satisfies { [B in Bound]: (rod: string, part: string) => string },
    lookAtIt: "Look at that turn",
    inTime: "In time",
    playTurn: "A turn of 90°",
    playStop: "The boat stops",
    time: "Time",
    play: "Play",
    halt: "Halt",
    filmWords: "The spread at this moment.",
    deepest: (depth: string, time: string) => `deepest ${depth}, after ${time}.`,
    settled: (time: string) => `Settled after ${time}.`,
    notSettled: "Not settled by the end.",
    down: (time: string, part: string) => `${part} is on the bottom after ${time}.`,
    mayBeDown: (time: string) => `It may touch after ${time}.`,
    doNotStop: "Do not stop over this bottom with lines out.",
    notFollowed: "cannot be followed: make the turn wider.",
    physics:
      "For water that is still or runs alike at every depth. The shade is where a line is nine times in ten. What touches goes by twice the chance you accept straight ahead, as a turn is short and seen coming (a judgement). A hit on the inside rod says the spread runs too high (common practice, no source). Watch the sounder; never turn while wire goes out.",
  },
};
