/** Words of the Lines place. Numbers come in already written, with their units. */
import type { Cause, Caution, Doubt, Verdict, Why } from "../../desk/types/towline.gen";

export const lines = {
  lines: {
    rods: "The spread, rod by rod",
    deck: "Set speed, depth, line and drail",
    dials: { lineOut: "Line out", drail: "Drail", sinker: "Sinker", speed: "Speed", bottom: "Bottom" },
    /** A dial, its rod or 0, and what it was before. */
    turned: (dial: string, rod: number, was: string) =>
      `${dial}${rod > 0 ? ` of rod ${rod}` : ""}: changed from ${was}.`,
    turnedAll: (dial: string, rod: number, was: string) =>
      `${dial} of all rods: changed; rod ${rod} was ${was}.`,
    together: "Dial all rods together",
    allIn: "All lines in",
    isIn: "in",
    allInNow: "All lines are in: no lure is warned of.",
    outAgain: "Out again",
    outNow: "The lines are out, as they were set.",
    allRods: "all rods",
    /** The dial has the number of this one; what is dialled goes for all. */
    withAll: (number: number) => `rod ${number} & all`,
    oneRod: (number: number) => `rod\u00a0${number}`,
    none: "none",
    speed: {
      fromPace: "from Pace",
      lost: (age: string | undefined) =>
        `Pace has ${age ? `had no speed for ${age}` : "no speed yet"}: set it by hand, or look there.`,
      lostBrief: "No speed from Pace",
      find: "Find current",
      staysBrief: (set: string) => `Lines stays at ${set}`,
      brief: (now: string, set: string) => `The boat goes ${now}, Lines has ${set}`,
      differs: (now: string, set: string) => `The boat goes ${now} now; Lines is set to ${set}.`,
      guess: "The current is not known, so this is a guess.",
      off: (verdict: string, rods: number[]) =>
        `At that speed ${rods.length === 1 ? "rod" : "rods"} ${rods.join(", ")}: ${verdict.toLowerCase()}.`,
      take: "Take it",
      follow: "Follow Pace",
      taken: (speed: string) => `Lines is set to ${speed}.`,
      follows: "Lines follows the speed from Pace.",
      byHand: "Lines no longer follows Pace.",
      fewFixes: (set: string) => `Pace has too few fixes yet: Lines stays at ${set}.`,
      unsure: (off: string, set: string) =>
        `Pace knows the speed only to ±\u202f${off}: Lines stays at ${set}. Find the current, or wait.`,
    },
    firstStart: "Getting the calculator. It comes once, then it is on this phone.",
    /** Above the rows: “43 ± 12” … “4 in 10”. */
    legend: { depth: (unit: string) => `${unit} deep, 9 in 10`, odds: "where wanted" },
    working: "Working it out",
    asOf: (moment: string) => `as of ${moment}`,
    noAnswer: "No answer",
    verdicts: {
      "in the band": "Where wanted",
      "too high": "Too high",
      "too deep": "Too deep",
      "on the bottom": "On the bottom",
    } satisfies { [V in Verdict]: string },
    perhaps: (verdict: string) => `Perhaps ${verdict}`,
    explained: (low: string, high: string, from: string, to: string) =>
      `Nine times in ten it runs between ${low} and ${high}. The bar: how often where wanted, ${from} to ${to} off bottom.`,
    odds: {
      ofBand: "that it rides where wanted",
      inBand: (chance: string) => `Where wanted ${chance}`,
      high: (chance: string) => `too high ${chance}`,
      deep: (chance: string) => `too deep ${chance}`,
      touch: (chance: string) => `touches ${chance}`,
    },
    offBottom: (distance: string) => `${distance} off bottom`,
    onBottom: "lies on the bottom: it would hang that deep",
    setting: (lineOut: string, weights: string | undefined) =>
      `${lineOut} out${weights ? `, ${weights}` : ""}`,
    addRod: "Add a rod",
    added: (place: string) => `Added: ${place}.`,
    wantedNow: (low: string, high: string) => `Wanted: ${low} to ${high} off bottom`,
    more: "More",

    advice: {
      leave: "Good as it is",
      best: "Best there is",
      /** Before all else; as short as what else there is to do, for every row may say it at once. */
      goAt: (speed: string) => `Go ${speed}`,
      backing: (said: string, length: string) => `${said}: ${length} of backing goes out`,
      weight: (mass: string, lineOut: string) => `Put on ${mass}, with ${lineOut} out`,
      letOut: (length: string) => `Let out ${length} more`,
      takeIn: (length: string) => `Take in ${length}`,
      wait: "Wait: shallow",
      /** In few words, for a row. */
      brief: {
        letOut: (length: string) => `Let out ${length}`,
        weight: (mass: string) => `Put on ${mass}`,
        heavier: "Add weight",
        tooShort: "Too little line",
        lighter: "Take off weight",
      },
      /** Whether more weight does better, and the speed that would do. */
      notDeepEnough: (
        wire: string,
        backing: string | undefined,
        depth: string,
        heavier: boolean,
        speed: string | undefined,
      ) =>
        `Even all ${wire} of wire${backing ? ` and ${backing} of backing` : ""} reach only ${depth}: ${
          heavier ? "add weight" : "more weight does no better"
        }${speed ? `${heavier ? " or" : ","} slow to ${speed}` : ""}`,
      notHighEnough: (shortest: string, depth: string, speed: string | undefined) =>
        `Even ${shortest} of line runs at ${depth}: take off weight${speed ? ` or speed up to ${speed}` : ""}`,
    },

    why: {
      "": "",
      "line too short": "All the line aboard does not bring it that deep.",
      "wire too short":
        "All its wire does not bring it that deep, and no heavier sinker does better. Backing would have to go out.",
      "shortest line deeper": "Even the shortest line runs deeper.",
      "weight out of water": "With less line a weight or the join would hang out of the water.",
      "deeper without weight": "It runs deeper already without a drail: take in line.",
      "heaviest weight too light":
        "Not even the heaviest of these brings it down: let out line or slow down.",
      "always clear": "It stays clear of the bottom at every speed.",
      "always on the bottom": "It lies on the bottom at every speed: take in line.",
    } satisfies { [W in Why]: string },

    causes: {
      none: "nothing: all was taken as exact",
      mostly: (cause: string) => `mostly from ${cause}`,
      both: (first: string, second: string) => `from ${first} and ${second}`,
      names: {
        "speed through the water": "speed through the water",
        "length of line out": "the length of line out",
        "height of the rod tip": "the height of the rod tip",
        "drag of the line": "the drag of the line",
        "friction along the line": "friction along the line",
        "weight of the lure": "the weight of the lure",
        "drag of the lure": "the drag of the lure",
        "lift of the lure": "the lift of the lure",
        "weight of drails and sinker": "the weight of drails and sinker",
      } satisfies { [C in Cause]: string },
    },

    picture: {
      title: (depth: string) => `The spread from the side, in ${depth} of water.`,
      rod: (place: string, depth: string, off: string, verdict: string) =>
        `${place}: ${depth}, ${off}, ${verdict}.`,
    },

    detail: {
      depth: "Depth of the lure",
      odds: "Odds",
      offBottom: "Bottom",
      doubt: (causes: string) => `The ± comes ${causes}`,
      tension: "Pull at the tip",
      pull: (force: string) => `about ${force}`,
      angle: "Line at the tip",
      below: (angle: string) => `${angle} below level`,
      inAir: "Line in the air",
      astern: "Lure astern",
      asks: "Ask about this rod",
      card: "Depth card",
      drail: "Which drail?",
      slow: "How slow before it touches?",
      rig: "Place and rig",
    },

    drail: {
      title: (place: string) => `Which drail: ${place}`,
      question: (lineOut: string, depth: string, speed: string) =>
        `With ${lineOut} out at ${speed}, wanted at ${depth}. The drail sits where wire and leader join. Tap one to put it on.`,
      reaches: (depth: string) => `runs at ${depth}`,
      skims: "skims the surface",
      mayTouch: (depth: string) => `runs at ${depth}, may touch`,
      lies: (depth: string) => `would run at ${depth}: lies on the bottom`,
      nearest: "Nearest",
      onNow: "on it now",
      notAboard: "Not aboard",
      put: (place: string, drail: string | undefined) =>
        `${place}: ${drail ? `${drail} drail on` : "drail off"}.`,
    },

    slow: {
      title: (place: string) => `How slow: ${place}`,
      question: (lineOut: string, depth: string) =>
        `With ${lineOut} out in ${depth} of water, it touches bottom below`,
      already: (speed: string) => `That reaches up to the ${speed} of now: it may touch already.`,
      part: (part: string) => `The first to touch is ${part}.`,
      turns: "On a straight course. In a turn the inside line slows down and sinks.",
    },
    parts: {
      lure: "the lure",
      drail: "the drail",
      join: "the join of wire and leader",
      sinker: "the sinker",
    } as {
      [part: string]: string;
    },

    wanted: {
      title: "Wanted off bottom",
      what: "How far off the bottom the lures should ride.",
      high: "Upper edge",
      low: "Lower edge",
      caution: "How near you dare",
      cautions: {
        "keep clear": "Keep clear",
        "a tick now and then": "A tick now and then",
        "along the bottom": "Along the bottom",
      } satisfies { [C in Caution]: string },
      cautionWhat:
        "A touch can cost the spoon. A lure may touch up to 1 time in 20, 3 in 20 or 3 in 10: judgements, no source.",
      sounding: "The sounding may be off by",
      tide: "The tide since may have changed",
      rule: (distance: string, label: string) =>
        `Rule of thumb: within ${distance} of the bottom (${label}).`,
    },

    water: {
      title: "Water",
      about: "How warm, how salt",
      what: "Cold water drags harder on thin wire: lures run a little higher. In salt water what sinks weighs a little less.",
      temperature: "Temperature",
      salinity: "Salt",
      places: { open: "Open sea", bay: "Bay", mouth: "River mouth", river: "River" },
      salinities: (place: string, salinity: string) => `${place}, ${salinity}`,
      salt: "Grams of salt in a kilogram, near enough, from memory. After much rain, take the next one down.",
      used: (density: string, viscosity: string) =>
        `Computed with a density of ${density} and a viscosity of ${viscosity}, for all rods.`,
    },

    doubt: {
      title: "How sure",
      about: "What makes the ±, and how to narrow it",
      what: [
        "The ± of every depth comes from these: two times in three, a number is off by no more than told here.",
        "A speed measured through the water, a weighed lure and good marks on the wire narrow the ±. All are judgements from memory until this boat’s touches tell better.",
      ],
      first: (value: string) => `first ±\u202f${value}`,
      names: {
        speed: "Speed through the water",
        lineOut: "Line out",
        tipHeight: "Height of the rod tip",
        lineDrag: "Drag of the line",
        friction: "Friction along the line",
        lureWeight: "Weight of the lure",
        lureDrag: "Drag of the lure",
        lureLift: "Lift of the lure",
        sinkers: "Weight of drails and sinker",
      } satisfies { [D in keyof Doubt]-?: string },
      hints: {
        speed: "Measured through the water: less. Over the ground alone: as much as the current may be.",
        lineOut: "Marks measured under strain: less. Counted turns of the reel: more.",
        tipHeight: "Seas, and the bend of the rod.",
        lineDrag: "Across the line: humming, weed, kinks.",
        friction: "Along the line: how rough it is.",
        lureWeight: "In the water. Weighed on a scale: less.",
        lureDrag: "How hard the lure pulls. Hardly anybody has measured it.",
        lureLift: "Whether it climbs or dives, as an area.",
        sinkers: "As stamped on them, or weighed.",
      } satisfies { [D in keyof Doubt]-?: string },
    },

    rig: {
      title: "Place and rig",
      place: "Place",
      tip: (height: string) => `tip ${height} up`,
      rig: "Rig",
      edit: "Change this rig",
      all: "All rigs",
      remove: "Take this rod in",
      removed: (place: string) => `Taken in: ${place}.`,
    },
  },

  thumb: {
    name: "Rule of thumb",
    labelled: (depth: string, label: string) => `${depth} (${label})`,
    beside: (depth: string, label: string) => `Rule of thumb: ${depth} (${label})`,
    caption: (label: string) => `Rule: the rule of thumb (${label}).`,
  },
};
