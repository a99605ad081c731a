/** Words of the depth card: nobody needs them before it is opened. */

export const card = {
  card: {
    title: (place: string) => `Depth card: ${place}`,
    at: (speed: string) => `At ${speed} through the water.`,
    asRigged: (drail: string | undefined) => (drail ? `With the ${drail} drail` : "Without a drail"),
    compared: "With other drails",
    lineOut: (unit: string) => `Out, ${unit}`,
    depth: (unit: string) => `Depth, ${unit}`,
    rule: "Rule",
    against: {
      inside: "agrees with physics",
      deeper: "physics runs deeper than the rule",
      shallower: "physics runs shallower than the rule",
    },
    parting: {
      inside: (marks: string, unit: string) =>
        `At ${marks} ${unit} the rule lies inside the ± of the physics.`,
      deeper: (marks: string, unit: string) => `At ${marks} ${unit} physics runs deeper than the rule.`,
      shallower: (marks: string, unit: string) => `At ${marks} ${unit} physics runs shallower than the rule.`,
    },
    comparedCaption: (unit: string, label: string) =>
      `Middle of the depth in ${unit}, with a ± much as above; below each, smaller, the rule of thumb (${label}).`,
    whyTitle: "Where the two part, and why",
    why: [
      "The rule gives 1 of depth for 10 of line, and 5 ft for each 4 oz, at any speed. In the water, wire settles where its weight balances the drag across it: near 1 in 10 for common wire at 3 to 3.5 knots, steeper when slower, flatter when faster.",
      "The spoon’s weight and the leader add a few feet that the rule leaves out, line between a high tip and the water none: the table reckons with yours.",
      "Each further 4 oz adds less than the one before, where the rule adds 5 ft every time.",
    ],
    cables: (taught: boolean) =>
      `Published tow cables drag a third more than a smooth, quiet line, twice as much where they hum; so was your wire taken to, give or take a quarter. ${
        taught
          ? "What touches and readings taught of yours is reckoned in: see What touches tell."
          : "Nobody has measured yours. Let a lure tick the bottom in a known depth, and believe the bottom."
      }`,
  },
};
