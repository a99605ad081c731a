/** Words of what a season's settings brought. Numbers come in already written, with their units. */
export const produced = {
  produced: {
    title: "What brought fish",
    open: "What brought fish",
    none: "No trips with lines noted yet. Note the spread as set on Lines when lines go out: hours begin there.",
    reading: "Reading the season",
    failed: "It could not be worked out. What is noted is safe: go back and open this page again.",
    unit: "per 10 hours of one line in the water",
    head: (strikes: string, events: string, hours: string, trips: string) =>
      `${strikes} strikes, ${events} at different times, in ${hours} hours of line on ${trips} trips.`,
    headOf: {
      strikes: "",
      landed: "Only fish that came aboard are counted.",
      kept: "Only fish that were kept are counted.",
    },
    without: (n: string) => `${n} more came while no line is noted as out: they count in no rate.`,
    early: (n: string) =>
      `Too early to say: ${n} more are wanted before anything is compared. Until then these are counts.`,
    lights: "Light and tide are still looked up: nothing is compared before.",
    so: "So far",
    likely: (level: string, ratio: string, low: string, high: string) =>
      `Likely better so far: ${level}, ${ratio} times the others (${low} to ${high}), beside them in the same trips and light.`,
    likelyOpen: (level: string, low: string) =>
      `Likely better so far: ${level}, at least ${low} times the others, beside them in the same trips and light.`,
    thin: "Thin: fewer than 20 on one side.",
    always: (other: string) =>
      `It always went together with ${other}: nobody can tell which of the two it is.`,
    goes: (level: string, other: string) =>
      `${level} looks better, but goes with ${other}: beside it, it does not stand.`,
    nothing: "Nothing stands out so far that chance could not do. That is not: it makes no difference.",
    looks: (n: string, share: string) =>
      `${n} settings were looked at, and each is paid for. Of what is called likely, about ${share} may be chance.`,
    looksNone: (n: string) => `${n} settings were looked at, and each is paid for.`,
    spread: (percent: string) => `Trips differ by ±${percent} more than chance: the bars allow for it.`,
    chance: (percent: string) => `${percent} that it is better than the others`,
    verdicts: {
      "too early": "",
      "too few": "too few to compare",
      "never side by side": "never beside others in the same trip and light",
      "not told apart": "not told apart from the others",
      "goes with another": "goes with something else",
      "likely better": "likely better so far",
    },
    thinShort: "thin",
    more: (hours: string) => `${hours} h more beside others would show if it doubles`,
    counted: (events: string, hours: string) => `${events} in ${hours} h`,
    row: (level: string, rate: string, low: string, high: string) =>
      `${level}: ${rate}, from ${low} to ${high}`,
    untold: (hours: string, events: string) => `Not told: ${hours} h, ${events} strikes.`,
    by: "By",
    beside: "Together with",
    nothingElse: "Nothing else",
    of: "Count",
    ofs: { strikes: "Strikes", landed: "Landed", kept: "Kept" },
    year: "Year",
    ground: "Ground",
    all: "All",
    factors: {
      rod: "Rod",
      lure: "Spoon",
      lineOut: "Line out",
      drail: "Drail",
      depth: "Depth of the lure",
      offBottom: "Off the bottom",
      light: "Light",
      tide: "Hour of the tide",
      ground: "Ground",
      speed: "Speed",
      heading: "Heading",
      beat: "Beat",
    } as { [factor: string]: string },
    light: { dawn: "Dawn", day: "Day", dusk: "Dusk", night: "Night" },
    tide: {
      "high water": (from: number, to: number) => `High water, ${from}–${to} h after`,
      "low water": (from: number, to: number) => `Low water, ${from}–${to} h after`,
    },
    noDrail: "No drail",
    both: (one: string, other: string) => `${one} · ${other}`,
    how: "How it is read",
    howWords: [
      "Strikes within five minutes of one another count once: a school is one piece of news.",
      "A setting is compared with the others only where both were in the water on the same trip and in the same light.",
      "What is called likely better must stand without its best trip too.",
      "The bar is where the rate lies, 95 times in 100; the dot is what was counted. The small mark is what is left once settings with little time are drawn to the others.",
    ],
  },
};
