/** Words of what the sounder has read that the lures are still to come to. Numbers come in already written. */
import type { Verdict } from "../../desk/types/rise.gen";

export const rise = {
  rise: {
    title: "Depth now",
    sounder: "Sounder",
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
    behind: (depth: string, set: string) => `Last sounded ${depth}, Bottom is ${set}`,
    behindWhole: (depth: string, set: string) =>
      `All lures have come to where ${depth} was sounded last, and Lines goes on with Bottom at ${set}.`,
    setTo: (depth: string) => `Set ${depth}`,
    leaveIt: (set: string) => `Leave ${set}`,
    byPace: (speed: string) => `Reckoned with ${speed} over the ground, from Pace.`,
    byLines: (speed: string) => `Pace has no speed: reckoned with the ${speed} of Lines over the ground.`,
    how: "On a straight course; between two readings the bottom is taken to be straight.",
    coming: (seconds: string | undefined, verdict: string) =>
      `${seconds ? `here in ${seconds}\u00a0s` : "here now"}; ${verdict}`,
    verdicts: {
      "stays clear": "stays clear",
      "comes close": "may touch on the way",
      touches: "touches on the way",
      "not sounded": "nothing sounded ahead of it",
    } satisfies { [V in Verdict]: string },
    ahead: (depth: string, rod: number, touches: boolean, seconds: string | undefined) =>
      `Rise ahead, ${depth}: rod\u00a0${rod} ${touches ? "touches" : "comes close"} ${seconds ? `in ${seconds}\u00a0s` : "now"}.`,
    /** Others that touch, where no line taken in helps. */
    also: (rods: number[]) =>
      rods.length === 1 ? `Rod\u00a0${rods[0]} touches too.` : `Rods ${rods.join(", ")} touch too.`,
    speed: (speed: string) => `Speed up to ${speed}.`,
    lineOf: (lineIn: string, rod: number, first: boolean) => `${lineIn} on ${first ? "rod\u00a0" : ""}${rod}`,
    /** Of rods that neither less line nor another speed keeps clear. */
    whole: (rods: number[]) =>
      `${rods.length === 1 ? "Rod\u00a0" : "Rods "}${rods.join(", ")}: all in, or steer away.`,
    ready: "Be ready to take in.",
    asEach: (or: boolean) => `${or ? "Or take" : "Take"} in, rod by rod.`,
    takeIn: (lines: string[], or: boolean) => `${or ? "Or take" : "Take"} in ${lines.join(", ")}.`,
  },
};
