/** Words of what touches teach. Numbers come in already written, with their units. */

export const calibrate = {
  calibrate: {
    title: "What touches tell",
    link: (used: number, odd: number) =>
      `${used === 0 ? "Touches: none yet" : used === 1 ? "1 touch counts" : `${used} touches count`}${
        odd > 0 ? (odd === 1 ? ", 1 contradicts" : `, ${odd} contradict`) : ""
      }`,
    howSure: "How sure",
    gathering: "The touches of all trips are being gathered anew. What they taught still holds.",
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
      alone: "Learned from: there is no other to compare it with",
      "cannot be computed": "Cannot be computed with: it does not count",
      untold: "Does not say how the rod was rigged, or names another rod since: it does not count",
      uncounted: "Not counted",
      deeper: (off: string) => `By this one the line lay ${off} deeper than all others say.`,
      shallower: (off: string) => `By this one the line lay ${off} less deep than all others say.`,
      shouldHaveTouched: (off: string) => `By all others the line lay ${off} deeper than the water here.`,
    },
    lesson: {
      once: "Tapped twice: it counts once.",
      learned: "Touch learned from.",
      off: "Lines does not go by touches now.",
      little: (rod: number) => `Touch learned from: it agrees, so rod ${rod} stays about where it was.`,
      deeper: (rod: number, by: string) => `Touch learned from: rod ${rod} rides ${by} deeper than thought.`,
      shallower: (rod: number, by: string) =>
        `Touch learned from: rod ${rod} rides ${by} higher than thought.`,
    },
    from: (names: string[]) => `Learned from: ${names.join(", ")}.`,
    guess: (who: string) =>
      `${who} noted it at the depth of water that the app begins with. It moves no line here until somebody sets its depth, or the crew takes it.`,
    guests: (who: string) =>
      `${who} noted it. It moves no line here until one of the crew takes it, or felt the same.`,
    leavePhone: (who: string) => `Leave out what ${who} felt`,
    countPhone: (who: string) => `Left out here: ${who}. Count it again`,
    takeGuess: "The depth was so: take it",
    contradicts: "This one contradicts the others.",
    contradictingOne: "A touch contradicts the others",
    contradicting: (touch: string) => `A touch contradicts the others: ${touch}.`,
    contradictsWhy:
      "It may be a wrong rod, depth or length, weed, or a hump. It counts less; strike it out if it is wrong.",
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
    tryReading: {
      angle: (rod: string, then: string) =>
        `${rod}: sight along the wire as it is set. The ± of all rods would come to about ${then}.`,
      entry: (rod: string, then: string) =>
        `${rod}: tell where its wire enters the water. The ± of all rods would come to about ${then}.`,
      pull: (rod: string, then: string) =>
        `${rod}: tell how hard it pulls. The ± of all rods would come to about ${then}.`,
    },
    learned: (count: number) => `Learned from ${count}: touches, and what was taught.`,
    afterAll: (count: number) => `After ${count} learned from`,
    nextHow: (bottom: string) =>
      `In ${bottom} of water, over clean ground only: ease line out until it just ticks, note the touch, take line in. A wire that fouls is loaded by the whole boat.`,
    depths: "Depths on Lines",
    withTouches: "With what touches tell",
    withoutTouches: "As computed before any touch",
    all: "All of them",
    how: "A touch is noted with line, drail, speed and depth of water as set on Lines: set these first. Touches of all phones and trips here count, older ones a little less. What is learned of a wire or lure counts for all of its name, half for others.",
  },
};
