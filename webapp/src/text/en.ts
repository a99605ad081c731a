/** Every text of the app in English. Numbers come in already written, with their units. */
import type { Why as BeatWhy, Feel, Steadiness } from "../desk/cadence.gen";
import type { Why as DriftWhy, Verdict as PaceVerdict, Quality, SteerWhy } from "../desk/current.gen";
import type { Cause, Doubt, Verdict, Why } from "../desk/towline.gen";
import type { StorageTrouble } from "../store/kept";

export const en = {
  language: "en",

  app: {
    name: "Wirewake",
    description: "How deep every lure runs on wire line: computed on this phone, with no signal.",
  },

  places: { lines: "Lines", pace: "Pace", notes: "Notes" },

  units: {
    ft: "ft",
    fm: "fm",
    m: "m",
    in: "in",
    mm: "mm",
    cm: "cm",
    oz: "oz",
    g: "g",
    lb: "lb",
    kg: "kg",
    kn: "kn",
    "g/cm³": "g/cm³",
    "cm²": "cm²",
    "°": "°",
    "×": "×",
    "%": "%",
    "mm²/s": "mm²/s",
    "/min": "a minute",
    "°C": "°C",
    "°F": "°F",
  },
  unitsInWords: {
    ft: "feet",
    fm: "fathoms",
    m: "metres",
    oz: "ounces",
    g: "grams",
    lb: "pounds",
    kg: "kilograms",
    "°F": "Fahrenheit",
    "°C": "Celsius",
  },

  palettes: {
    title: "Light",
    names: { day: "Day", dusk: "Dusk", night: "Night" },
    change: (now: "day" | "dusk" | "night", next: "day" | "dusk" | "night") =>
      `Light: ${now}. Change to ${next}`,
  },

  parts: {
    back: "Back",
    less: (what: string) => `${what}: less`,
    more: (what: string) => `${what}: more`,
    tapToType: "Tap to type a number",
    first: { back: "As first set", is: "All is as first set.", done: "All is as first set again." },
    gone: "Not here any more",
    goneWhy: "This was removed, or the address is wrong. Nothing else is lost.",
  },

  problems: {
    range: (min: string, max: string, unit: string) =>
      `Must be from ${min} to ${max} ${unit}. Still as it was.`,
    notANumber: (kept: string) => `That is not a number. Still ${kept}: tap it and type digits, like 3.2.`,
    other: (what: string) => `${what.charAt(0).toUpperCase()}${what.slice(1)}.`,
    /** A problem with something that is set elsewhere. */
    named: (field: string, what: string) => `${fieldNames[field] ?? field} ${what}. Still as it was.`,
  },

  lines: {
    rods: "The spread, rod by rod",
    deck: "Set speed, depth, line and drail",
    dials: { lineOut: "Line out", drail: "Drail", speed: "Speed", bottom: "Bottom" },
    allRods: "all rods",
    oneRod: (number: number) => `rod ${number}`,
    none: "none",
    speed: {
      fromPace: "from Pace",
      lost: (age: string) => `Pace has had no speed for ${age}: set it by hand, or look there.`,
      differs: (now: string, set: string) => `The boat goes ${now} now; Lines is set to ${set}.`,
      guess: "The current is not known, so this is a guess.",
      off: (verdict: string, rods: number[]) =>
        `At that speed ${rods.length === 1 ? "rod" : "rods"} ${rods.join(", ")}: ${verdict.toLowerCase()}.`,
      take: "Take it",
      follow: "Follow Pace",
      taken: (speed: string) => `Lines is set to ${speed}.`,
      follows: "Lines follows the speed from Pace.",
      byHand: "Lines no longer follows Pace.",
    },
    firstStart: "Getting the calculator. It comes once, then it is on this phone.",
    working: "Working it out",
    noAnswer: "No answer",
    verdicts: {
      "in the band": "In the band",
      "too high": "Too high",
      "too deep": "Too deep",
      "on the bottom": "On the bottom",
    } satisfies { [V in Verdict]: string },
    offBottom: (distance: string) => `${distance} off bottom`,
    mayTouch: (distance: string) => `${distance} off bottom, may touch`,
    onBottom: "would lie on it",
    setting: (lineOut: string, drail: string | undefined) =>
      `${lineOut} out${drail ? `, ${drail} drail` : ""}`,
    addRod: "Add a rod",
    added: (place: string) => `Added: ${place}.`,
    wantedNow: (low: string, high: string) => `Wanted: ${low} to ${high} off bottom`,
    more: "More",

    advice: {
      leave: "Good as it is",
      letOut: (length: string) => `Let out ${length} more`,
      takeIn: (length: string) => `Take in ${length}`,
      notDeepEnough: (wire: string, backing: string | undefined, depth: string, speed: string | undefined) =>
        `Even all ${wire} of wire${backing ? ` and ${backing} of backing` : ""} reach only ${depth}: add weight${
          speed ? ` or slow to ${speed}` : ""
        }`,
      notHighEnough: (shortest: string, depth: string, speed: string | undefined) =>
        `Even ${shortest} of line runs at ${depth}: take off weight${speed ? ` or speed up to ${speed}` : ""}`,
    },

    why: {
      "": "",
      "deeper than all the line aboard can bring it": "All the line aboard does not bring it that deep.",
      "even the shortest line runs deeper": "Even the shortest line runs deeper.",
      "deeper already without any more weight": "It runs deeper already without a drail: take in line.",
      "not reached with the heaviest weight allowed":
        "Not even the heaviest of these brings it down: let out line or slow down.",
      "stays clear of the bottom at every speed": "It stays clear of the bottom at every speed.",
      "lies on the bottom at every speed": "It lies on the bottom at every speed: take in line.",
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
      exaggeration: (times: string) => (times === "1" ? "to scale" : `heights ×${times}`),
      title: (depth: string) => `The spread from the side, in ${depth} of water.`,
      rod: (place: string, depth: string, off: string, verdict: string) =>
        `${place}: ${depth}, ${off}, ${verdict}.`,
    },

    detail: {
      depth: "Depth of the lure",
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
        shallower: (marks: string, unit: string) =>
          `At ${marks} ${unit} physics runs shallower than the rule.`,
      },
      comparedCaption: (unit: string, label: string) =>
        `Middle of the depth in ${unit}, with a ± much as above; below each, smaller, the rule of thumb (${label}).`,
      whyTitle: "Where the two part, and why",
      why: [
        "The rule gives 1 of depth for 10 of line, and 5 ft for each 4 oz, at any speed. In the water, wire settles at the slope where its weight balances the drag across it: near 1 in 10 for common wire at 3 to 3.5 knots, steeper when you slow down, flatter when you speed up.",
        "The spoon’s own weight and the leader add a few feet that the rule leaves out, so physics often starts deeper. With a high rod tip and little line out, much of the line hangs in the air and gives no depth, so there it can start shallower.",
        "Each further 4 oz adds less than the one before. Near 200 ft of line the physics gives more than 5 ft for the first ones.",
        "Wire that hums, or carries weed, drags half as much again: that alone would bring rule and physics together. Nobody has measured yours. Let a lure tick the bottom in a known depth, and believe the bottom.",
      ],
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
      title: "Wanted band",
      what: "How far off the bottom the lures should ride.",
      high: "Upper edge",
      low: "Lower edge",
      rule: (distance: string, label: string) =>
        `Rule of thumb: within ${distance} of the bottom (${label}).`,
    },

    water: {
      title: "Water",
      about: "How warm, how salt",
      what: "Colder water is thicker: it drags harder on thin wire, and the lures run a little higher. Salt makes it heavier, so all that sinks weighs a little less in it.",
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
        "The ± of every depth comes from these: two times in three, a number is off by no more than told here, either way.",
        "A speed measured through the water, a weighed lure and good marks on the wire narrow the band. All are judgements from memory until this boat’s own touches tell better.",
      ],
      first: (value: string) => `first ± ${value}`,
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

  pace: {
    noSpeed: "No speed known",
    throughWater: "Through the water",
    overGround: "Over the ground",
    speedOnly: "no course",
    mean: (seconds: string) => `mean of ${seconds} s`,
    fix: (age: string, accuracy: string) => `fix ${age} old, good to ${accuracy}`,
    typedAgo: (age: string) => `typed ${age} ago`,
    ages: {
      seconds: (n: string) => `${n} s`,
      minutes: (n: string) => `${n} min`,
      hours: (n: string) => `${n} h`,
    },
    gone: (speed: string, age: string) => `No fix for ${age}. It was ${speed}.`,
    receivers: {
      resting: "",
      asking: "Waiting for the first fix. Under the open sky it comes within a minute or two.",
      refused:
        "This phone does not give its position to this app. Allow it in the browser’s settings for this address, then open Pace again; or type speed and course from the boat’s own instrument.",
      none: "This phone gives no position here. Type speed and course from the boat’s own instrument.",
      on: "The receiver of this phone tells no speed. Type speed and course from the boat’s own instrument.",
    },
    current: (drift: string, set: string) => `Current ${drift} towards ${set}`,
    currentAge: (age: string, rough: boolean) =>
      `${age} old${rough ? ", rough" : ""}. Tide turns: find it anew when in doubt.`,
    currentUnknown: "Current not known, so this is a guess. Find the current.",
    verdicts: {
      "hold it": "Hold it",
      "a little faster": "A little faster",
      "a little slower": "A little slower",
      "perhaps a little faster": "Perhaps a little faster",
      "perhaps a little slower": "Perhaps a little slower",
    } satisfies { [V in PaceVerdict]: string },
    more: (change: string, to: string) => `${change} more over the ground: ${to}`,
    less: (change: string, to: string) => `${change} less over the ground: ${to}`,
    steady: (low: string, high: string) => `Good from ${low} to ${high} over the ground on this course`,
    notches: (n: number) =>
      `${Math.abs(n) === 1 ? "One notch" : `${Math.abs(n)} notches`} ${n > 0 ? "up" : "back"}`,
    notched: "I moved it one notch",
    watchingNotch: "Watching what the notch does: keep straight for 20 s.",
    wantedNow: (low: string, high: string, from: "own" | "learned" | "practice") =>
      `Wanted: ${low} to ${high}, ${
        from === "own"
          ? "as set here"
          : from === "learned"
            ? "as your marks of this spoon say"
            : "common practice, no source"
      }`,
    gauge: (wanted: string, speed: string) => `Wanted ${wanted}; through the water ${speed}.`,
    swing: (slow: string, fast: string) => `In the last half minute from ${slow} to ${fast} over the ground.`,
    swingDepth: (place: string, deep: string, shallow: string) =>
      `If it stayed at either end, ${place} would ride between ${deep} and ${shallow}; quick surges reach the lure much weakened.`,
    useOnLines: "Lines takes this speed",
    following: "Lines follows this speed",
    deck: "Beat and current",
    tapBeat: "Tap the beat",
    tapBeatWhat: "of the rod tip",
    find: "Find the current",
    steer: "Steer",
    how: "Set up",
    type: "Type it",

    beat: {
      title: "The beat",
      here: "Tap here with every beat",
      pause: "A pause begins anew.",
      spoon: (spoon: string) => `Of the ${spoon}`,
      minute: "a min",
      none: "–",
      why: {
        "": "",
        "too few taps: go on tapping with the beat": "Go on tapping with the beat.",
        "too irregular: tap once for each beat, or wait for a steady beat":
          "Too irregular: tap once for each beat, or wait for a steady one.",
        "too slow or too fast to be a beat: tap once for each beat":
          "Too slow or too fast to be a beat: tap once for each.",
      } satisfies { [W in BeatWhy]: string },
      steadiness: { "not known": "", steady: "Even taps", uneven: "Uneven taps" } satisfies {
        [S in Steadiness]: string;
      },
      more: (n: number) => (n === 1 ? "one more tap for ± 5 %" : `${n} more taps for ± 5 %`),
      enough: "± 5 % or better",
      right: (beat: string | undefined, speed: string | undefined) =>
        `Right was ${beat ?? ""}${beat && speed ? " at " : ""}${speed ?? ""}.`,
      nowIs: (feel: Feel, chance: string) =>
        `${{ "too slow": "Probably too slow", right: "Probably right", "too fast": "Probably too fast" }[feel]} (${chance})`,
      missing: (slow: number, right: number, fast: number) =>
        `Not enough marks yet. Still to mark: ${[
          slow > 0 && `${slow} too slow`,
          right > 0 && `${right} right`,
          fast > 0 && `${fast} too fast`,
        ]
          .filter(Boolean)
          .join(", ")}.`,
      unclear:
        "These marks do not go with beat and speed. Take back a wrong one in Notes, or begin anew for this spoon.",
      practice: (low: string, high: string, label: string) => `To start with: ${low} to ${high} (${label}).`,
      judge: "How does it swim? A mark teaches this phone.",
      justNote: "Only note it",
      noted: (feel: Feel | undefined) => (feel ? `Marked and noted: ${feel}.` : "Noted: the beat."),
      old: (age: string) => `tapped ${age} ago`,
      forget: "Forget this spoon’s marks",
      forgotten: "Forgot this spoon’s marks.",
    },

    finding: {
      title: "Find the current",
      what: "On different headings at one throttle setting, speed over the ground gives the current away.",
      careful: "Lines out: turn widely. A tight turn sinks the inside lures and may cross the wires.",
      turn: "By a turn",
      turnHow:
        "Set the throttle and leave it. Begin when already turning, and turn steadily: a whole circle in about two minutes, at least half.",
      legs: "By straight legs",
      legsHow:
        "Steer a straight leg for half a minute and take it; then one on the opposite heading by the compass, or three or more on any.",
      turning: (arc: string, count: number) =>
        count === 0 ? "Waiting for fixes." : `Turned ${arc} so far, ${count} fixes.`,
      goOn: (arc: string) => `Turn on to at least ${arc}.`,
      takeLeg: "Take this leg",
      noMotion: "There is no speed and course to take: wait for a fix, or type them.",
      leg: (number: number, speed: string, course: string) => `Leg ${number}: ${speed}, ${course}`,
      dropLeg: "Drop the last leg",
      stop: "Stop",
      found: (drift: string, set: string) => `Current ${drift} towards ${set}`,
      slack: (drift: string) => `Current ${drift}: too weak to tell where it sets`,
      speed: (speed: string) => `Speed through the water in this run: ${speed}`,
      qualities: { none: "", rough: "Rough", good: "Good" } satisfies { [Q in Quality]: string },
      roughWhy: "Rough: turn further for a better one.",
      change: "The throttle changed on the way. Hold it, or begin anew.",
      aside: (count: number) => (count === 1 ? "One fix does not count." : `${count} fixes do not count.`),
      use: "Use this current",
      used: "This current is used from now on.",
      forget: "Forget the current",
      forgotten: "The current is forgotten.",
      plot: (points: number, current: string) =>
        `Speed over the ground on each heading, north up: ${points} points. ${current}`,
      rings: (step: string) => `rings ${step}`,
      why: {
        "": "",
        "too few samples: go on at steady throttle": "Too few fixes yet: go on at steady throttle.",
        "headings too close together: turn on through at least 90°, better 180°":
          "Turn on: at least 90°, better 180° or more.",
        "no more than two headings: hold a third, well apart from both":
          "Only two headings so far: hold a third, well apart from both.",
        "too uncertain: turn further and more slowly, at steady throttle, in smoother water":
          "Too uncertain: turn further and more slowly, at steady throttle.",
        "does not fit one current: hold the throttle steady and start again":
          "This does not fit one current. Hold the throttle and begin anew.",
        "does not fit a boat faster than the current: check speeds and headings":
          "This does not fit a boat faster than the current: check speeds and headings.",
      } satisfies { [W in DriftWhy]: string },
    },

    steering: {
      title: "Steer",
      what: "What to steer to make good a track, with the current that is known.",
      track: "Track over the ground",
      heading: (heading: string) => `Steer ${heading}`,
      made: (speed: string, water: string) =>
        `Makes good ${speed} over the ground at ${water} through the water.`,
      unknown: "No current is known. Find it first; until then, steer the track itself and look.",
      compass: "True headings: allow for variation and deviation of your compass.",
      why: {
        "": "",
        "the current across the track is faster than the boat: go faster or choose another track":
          "The current across this track is faster than the boat: go faster or choose another.",
        "the current against the track is faster than the boat: go faster or wait":
          "The current against this track is faster than the boat: go faster or wait.",
      } satisfies { [W in SteerWhy]: string },
    },

    typing: {
      title: "Type speed and course",
      what: "From the boat’s own instrument. It holds for half an hour, or until this phone’s receiver tells.",
      speed: "Speed over ground",
      course: "Course over ground",
      again: "It is still so",
      forget: "Forget what was typed",
    },

    wantedSpeed: {
      title: "Wanted speed",
      what: "Through the water, what the spoon needs to swim.",
      low: "Not slower than",
      high: "Not faster than",
      order: "The slower of the two must not be above the faster.",
      back: "Back to marks and common practice",
      backDone: "Wanted speed goes by marks and common practice again.",
    },

    howTo: {
      title: "Set up Pace",
      window: "Mean over",
      seconds: (n: number) => `${n} s`,
      windowWhy: "Longer is calmer and later. In a sea, take 20 s or more.",
      aloud: "Say speed and beat aloud",
      yes: "Yes",
      no: "No",
      noVoice: "This phone has no voice of its own for this language, so nothing can be said out there.",
      voice: (name: string) => `With the voice “${name}”, which is on this phone.`,
      trySaying: "Say something",
      sample: "This is how it sounds",
      awake: "Keep the screen on while a trip runs",
      awakeCost:
        "A lit screen and the receiver empty many a phone in four to eight hours (from memory): bring a power bank, and let one phone do it.",
      awakeNow: { yes: "The screen is kept on now.", no: "The screen is not kept on now." },
      awakeNever: "This browser cannot keep the screen on: set it in the phone’s own settings.",
    },

    aloud: {
      knots: (speed: string) => `${speed} knots`,
      beat: (beat: string) => `Beat ${beat}`,
    },
  },

  thumb: {
    name: "Rule of thumb",
    labelled: (depth: string, label: string) => `${depth} (${label})`,
    beside: (depth: string, label: string) => `Rule of thumb: ${depth} (${label})`,
    caption: (label: string) => `Rule: the rule of thumb (${label}).`,
  },

  gear: {
    title: "Saved gear",
    about: "Wires, spoons, drails, places, rigs",
    what: "Typed once, then chosen by name. The first ones are sensible guesses: weigh and measure yours. Every change is kept at once.",
    kinds: {
      rigs: "Rigs",
      wires: "Wires",
      nylons: "Leaders and backing",
      spoons: "Spoons",
      drails: "Drails",
      places: "Places for rods",
    },
    wire: (strength: string) => `${strength} wire`,
    nylon: (strength: string) => `${strength} nylon`,
    spoon: (length: string) => `${length} spoon`,
    drail: (weight: string) => `${weight} drail`,
    place: "a rod",
    rig: (wire: string, spoon: string, threeWay: boolean) =>
      `${wire}, ${spoon}${threeWay ? ", three-way" : ""}`,
    add: "Add one like the last",
    copy: (name: string) => `${name}, own`,
    remove: "Remove",
    removed: (name: string) => `Removed: ${name}.`,
    usedBy: (rigs: string[]) => `In use on: ${rigs.join("; ")}.`,
    source: (source: string) => `These numbers: ${source}.`,
    own: "your own",
    name: "Name",
    byNumbers: "called by its numbers",
    numbers: {
      breaking: "Breaks at",
      diameter: "Diameter",
      density: "Density",
      strum: "Extra drag",
      length: "Length",
      mass: "Weight",
      dragArea: "Drag area",
      liftArea: "Lift area",
      tipHeight: "Tip above water",
      wireLength: "Wire on the reel",
      backingLength: "Backing on the reel",
      leaderLength: "Leader",
    },
    hints: {
      strum: "1 for clean, quiet line; about 1.5 if it hums or picks up weed.",
      mass: "In air, as a scale shows it.",
      dragArea: "How hard it pulls: drag coefficient times area. Leave it unless you have measured it.",
      liftArea: "More than 0 if it climbs, less than 0 if it dives.",
      tipHeight: "Where the line leaves rod tip or rigger clip, with the rod in its holder.",
    },
    rigParts: {
      wire: "Wire",
      backing: "Backing",
      leader: "Leader",
      spoon: "Spoon",
      threeWay: "Three-way with dropper and sinker",
      yes: "Yes",
      no: "No",
      dropperLine: "Dropper line",
      dropperLength: "Dropper",
      sinker: "Sinker",
    },
  },

  locker: {
    title: "Locker",
    units: {
      depth: "Depth in",
      line: "Line in",
      weight: "Weights in",
      pull: "Pull and strength in",
      temperature: "Temperature in",
    },
    knots: "Speeds are always in knots. Lines takes them through the water, not over the ground.",
  },

  notices: {
    undo: "Undo",
    noted: "Noted",
    startAgain: "Start it again",
    deskRestarted: "The calculator stopped and was started again. Nothing you entered is lost.",
    deskStopped:
      "The calculator does not start. The depths shown are old or missing. Nothing you entered is lost.",
    storage: (trouble: Exclude<StorageTrouble, { kind: "unreadable" }>): string => {
      switch (trouble.kind) {
        case "unopened":
          return "This phone’s storage did not open, so the usual values are shown. What you saved before is untouched.";
        case "unsaved":
          return trouble.full
            ? "This phone’s storage is full: your last changes are shown but not saved. Free some space; saving goes on by itself."
            : "Your last changes are shown but not saved. Keep this page open; saving is tried again by itself.";
      }
    },
    aside: {
      what: (document: string) =>
        `${documents[document] ?? "Something saved on this phone"} could not be read. It was kept aside as it was; the usual values stand in for it. Check them.`,
      save: "Save it to a file",
      saved: "A file of it is saved.",
      letGo: "Let go of it",
      gone: "Let go of what was put aside.",
    },
    update: "There is a new version. Load it when you are at the dock.",
    loadUpdate: "Load it",
    insecure:
      "This page came by plain http, so the phone cannot keep it: with no signal it will not open again. It works while it stays open.",
    whatToDo: "What to do",
    readCautions: "Read all",
  },

  cautions: {
    title: "Cautions",
    about: "Wire, hooks, sea and law",
    short: "Wire under load cuts. Watch the sounder. The master decides.",
    estimate: "Depths are estimates; the ± is where the lure rides nine times in ten. Watch the sounder.",
    all: [
      "Wire under load cuts to the bone. Never wrap it round a hand; wear gloves; keep fingers off a running spool and people out of the line of a loaded rod.",
      "A wire that has fouled the bottom is loaded by the whole boat. Ease the boat back over it; do not pull it free by hand.",
      "Keep a cutter that goes through wire where everybody can reach it.",
      "Heavy spoons swing with bare hooks. Look behind you before you lift one, and land fish with the boat under way only as the master says.",
      "A computed depth is an estimate. The bottom is not flat, the log is not exact, and the current below is not the one on top. Watch the sounder and the rod tips.",
      "This is no chart and no aid to navigation. Keep a proper lookout; one person steers.",
      "The master of the vessel decides, and local regulations on gear, seasons and fish come before anything shown here.",
    ],
  },

  about: {
    title: "About and sources",
    about: "What is computed, from what",
    sections: [
      {
        title: "What is computed",
        paragraphs: [
          "For each rod the shape of the line between lure and rod tip is solved from the balance of weight, water drag and pull, piece by piece: leader, wire, backing, and the part that hangs in the air. Line out is measured from the rod tip.",
          "Everything is computed on this phone. Nothing is sent anywhere.",
        ],
      },
      {
        title: "The ±",
        paragraphs: [
          "It is the band from the 5th to the 95th of a hundred, if speed, line out, tip height, drag, friction, and the weight, drag and lift of the lure are each known only so well. How well is a judgement from memory, until your own touches of the bottom replace it. “How sure” in the Locker has them all, to be set.",
        ],
      },
      {
        title: "Sources",
        paragraphs: [
          "Drag across a round line: White’s curve fit, 1 + 10 Re^(−2/3), with the flow across the line alone (cross-flow principle). Sea water: density by EOS-80, viscosity by Sharqawy, Lienhard and Zubair (2010). Units: NIST Special Publication 811.",
          "Wire, nylon and spoon sizes to begin with are from memory and say so; change them to yours.",
          "The rules of thumb are common practice; no source is known. They are shown beside the physics and never mixed into it.",
        ],
      },
    ],
  },

  ready: {
    title: "Ready for sea",
    about: "Will this phone work with no signal?",
    summary: (open: number) =>
      open === 0 ? "All is ready." : open === 1 ? "One thing is left." : `${open} things are left.`,
    standings: { good: "Ready", todo: "To do", never: "Not here" },
    checks: {
      secure: {
        name: "Secure connection",
        good: "The page came by a connection that lets the phone keep it.",
        todo: "",
        never:
          "The page came by plain http. Browsers then keep nothing for use without signal. Open the https address the skipper’s computer shows, or ask the skipper to start the server with a certificate.",
      },
      control: {
        name: "Opens without signal",
        good: "The app will open with the radio off.",
        todo: "The app is not in control of this page yet. Load it once more while you have signal.",
        never: "This browser cannot keep an app, or the connection is not secure.",
        act: "Load again",
      },
      files: {
        name: "All parts aboard",
        good: "Every file of the app is on this phone.",
        todo: "Not every file is on this phone yet. Stay here with signal for a minute.",
        never: "Nothing can be kept on this phone from this address.",
      },
      desk: {
        name: "Calculator",
        good: "It runs.",
        todo: "It is starting.",
        never: "It does not start. Load the page again; if that does not help, use a newer browser.",
      },
      storage: {
        name: "Storage that stays",
        good: "The phone has promised not to clear what you enter.",
        todo: "The phone may clear what you enter when it runs short of space. Ask it not to; if it refuses, bring the app to the home screen first.",
        never:
          "This browser makes no such promise. Bring the app to the home screen, and do not clear the browser’s data.",
        act: "Ask the phone",
      },
      home: {
        name: "On the home screen",
        good: "The app runs from the home screen.",
        todo: "iPhone and iPad: the share button, then “Add to Home Screen”. Other phones: the browser’s menu, then “Install” or “Add to home screen”. Then open it from there.",
        never: "From this address it would only be a bookmark. First see to the secure connection.",
        act: "Put it there",
      },
      wake: {
        name: "Screen can stay on",
        good: "This browser can keep the screen on.",
        todo: "",
        never: "This browser cannot. In the phone’s own settings, let the screen stay on longer.",
      },
    },
    try: {
      title: "Then try it",
      how: "Still at the dock: switch to flight mode, close the app, open it again. If the depths come up, it will work out there.",
    },
  },

  notes: {
    noTrip: "No trip runs",
    noTripWhy: "Mark and the other buttons begin one by themselves.",
    start: "Start a trip",
    goOn: (trip: string) => `Note in: ${trip}`,
    nothingYet: "Nothing noted yet.",
    mark: "Mark",
    markWhat: "a hookup",
    touch: "Touch",
    noteTouch: "Note that it touched",
    photo: "Photo",
    other: "Other",
    deck: "Note with one tap",
    timeline: "The notes of this trip",
    tripOf: (day: string) => `Trip of ${day}`,
    saving: "Not saved yet",
    struck: "Struck out",
    versions: (count: number) =>
      count === 1 ? "Someone wrote it otherwise" : `${count} others wrote it otherwise`,
    noted: (what: string) => `Noted: ${what}.`,
    undoNote: "Undo",
    done: "Done",
    another: "One more",
    save: "Save",
    skip: "All of this can be left out, or told later.",
    saved: "Saved.",
    noFix: "No position yet: noted without.",
    moving: (sog: string, cog: string | undefined) => `${sog} over the ground${cog ? `, ${cog}` : ""}`,
    fixAge: (minutes: string) => `position ${minutes} min old`,
    spreadOf: "The spread as it was set here",
    oneRod: (number: number, place: string) => `${number} ${place}`,
    noRods: "No rods are set on Lines.",
    setOnLines: "Depth of water, line and speed are taken as set on Lines.",
    whichRod: "Which rod touched?",
    unset: "not told",
    otherWord: "Other",
    typed: (field: string) => `${field}, in other words`,
    unknownKind: (kind: string) => `Noted with a newer version of the app: ${kind}`,
    lines: (rods: number) => (rods === 1 ? "1 rod out" : `${rods} rods out`),
    linesAdd: "Note the spread as set on Lines",
    kinds: {
      trip: "Trip",
      person: "Aboard",
      mark: "Hookup",
      lines: "Lines set",
      touch: "Touched bottom",
      beat: "Beat of the rod tip",
      pass: "Pass",
      note: "Note",
      photo: "Photo",
      trouble: "Gear trouble",
      tick: "Check",
      bag: "In the bag",
    } as { [kind: string]: string },
    add: {
      title: "What is there to note?",
      lines: "Lines set or changed",
      touch: "A lure touched bottom",
      pass: "A pass: heading and depth",
      note: "A note in words",
      photo: "A photo",
      trouble: "Gear trouble",
      bag: "Fish in the bag",
      tick: "Checks before leaving",
    },
    fields: {
      name: "Name",
      ground: "Ground",
      targetDepth: "Depth wanted",
      wind: "Wind",
      sea: "Sea",
      opened: "Begun",
      closed: "Closed",
      rod: "Rod",
      fish: "Fish",
      length: "Length",
      fate: "Kept or let go",
      hook: "Where the hook sat",
      lure: "Lure",
      colour: "Colour of the lure",
      lineOut: "Line out",
      drail: "Drail",
      bottom: "Depth of water",
      speed: "Speed",
      beat: "Beat",
      feel: "How it swam",
      heading: "Heading",
      side: "Side",
      text: "Note",
      caption: "What it shows",
      gear: "Which gear",
      what: "What happened",
      list: "List",
      item: "Check",
      done: "Done",
      count: "How many",
      person: "Whose",
      struck: "Struck out",
      spread: "Spread",
      lat: "Position",
      sog: "Over the ground",
    } as { [field: string]: string },
    choices: {
      fish: { "striped bass": "Striped bass", bluefish: "Bluefish", lost: "Got off" },
      fate: { kept: "Kept", released: "Let go" },
      hook: {
        "corner of the mouth": "Corner of the mouth",
        "upper jaw": "Upper jaw",
        "lower jaw": "Lower jaw",
        deep: "Deep inside",
        outside: "Outside",
      },
      colour: {
        white: "White",
        yellow: "Yellow",
        green: "Green",
        black: "Black",
        red: "Red",
        metal: "Bare metal",
      },
      what: { kink: "Kink", cut: "Cut", lost: "Lost" },
      feel: { "too slow": "Too slow", right: "Right", "too fast": "Too fast" },
    } as { [field: string]: { [value: string]: string } },
    checks: {
      list: "before leaving",
      label: "common practice, no source",
      items: [
        "Life jacket for everyone, worn",
        "VHF switched on and tried",
        "Somebody ashore knows where and until when",
        "Wire cutter where all can reach it",
        "Gloves for whoever handles wire",
        "Cut-off leash on whoever steers",
        "Weather and tide looked up",
        "Rules on fish and gear looked up",
      ],
      done: "Done",
      open: "Open",
    },
    trip: {
      title: "This trip",
      other: "A trip",
      people: "Who is aboard",
      addPerson: "First name or nickname",
      add: "Add",
      plan: "Plan",
      close: "Close the trip",
      closed: (trip: string) => `Closed: ${trip}.`,
      reopen: "Open it again",
      isClosed: "This trip is closed.",
      noteHere: "Note in this trip",
      toFile: "Save this trip to a file",
      takeOff: (name: string) => `Take off: ${name}`,
    },
    past: {
      title: "Past trips and search",
      search: "Search all notes",
      none: "No trips yet.",
      noHit: "Nothing found.",
      looking: "Looking",
      running: "running",
      hookups: (count: number) => (count === 1 ? "1 hookup" : `${count} hookups`),
      load: "Load notes from a file",
      loaded: (count: number) =>
        count === 0
          ? "All of this file was here already."
          : count === 1
            ? "1 note came in."
            : `${count} notes came in.`,
    },
    record: {
      change: "Change it",
      strike: "Strike it out",
      strikeWhat: "Nothing is rubbed out: it stays, struck through.",
      struckBy: (who: string, when: string) => `Struck out by ${who}, ${when}.`,
      unstrike: "Take the stroke back",
      history: "As it was written",
      otherwise: (who: string) => `${who} wrote`,
      take: "Take this",
      by: (who: string, when: string) => `${who}, ${when}`,
      me: "this phone",
      someone: "another phone",
      brought: (who: string, via: string) => `${who}, brought by ${via}`,
      refused: (why: string) => `The boat’s server did not take this: ${why}`,
      again: "Send it anew",
      savePhoto: "Save the photo to this phone",
      noPhoto: "The photo is not on this phone. It comes when the server is in reach.",
    },
    photos: {
      insecure:
        "Photos need a secure connection (https) to this page: with plain http the browser cannot keep them.",
      unreadable: "This is no picture that this browser can read. Take it as JPEG.",
      enough: "A trip has room for 200 photos, and this one has them.",
      take: "Take or choose a photo",
      shrinking: "Making it smaller",
    },
    file: {
      unreadable: "This file cannot be read. It may be cut off. Nothing was changed.",
      other: "This is not a file of notes saved by this app. Nothing was changed.",
      newer:
        "This file was saved by a newer version of the app. Load that version first. Nothing was changed.",
      large: "This file is far larger than notes are. Nothing was changed.",
      empty: "There are no notes in this file.",
      entry: (place: number, fault: string) =>
        `Note ${place} of this file ${fault}, so the file was not saved by this app as it is. Nothing was changed.`,
    },
  },

  exchange: {
    unsent: (count: number) => `${count} not sent`,
    refused: (count: number) => (count === 1 ? "1 not taken" : `${count} not taken`),
    allSent: "All sent",
    here: "On this phone only",
    title: "What is not sent",
    safe: "All of it is saved on this phone.",
    nothing: "Everything noted here is on the boat’s server too.",
    now: "Try now",
    working: "Exchanging with the boat’s server",
    last: (when: string) => `Last exchange: ${when}.`,
    byItself: "It goes by itself as soon as the boat’s server is in reach. You need do nothing.",
    alone: "This phone is not aboard a boat’s server, so its notes stay here. They work all the same.",
    toFile: "Save it to a file",
    fromFile: "Load a file",
    refusedTitle: "Not taken by the server",
    change: "Look and change",
    keepHere: "Keep it here only",
    keptHere: "Kept on this phone only.",
    clash: "Something else stands under the same mark there. Change it, and it is sent anew.",
    troubles: {
      unreachable: "The boat’s server is not in reach.",
      slow: "The line is too slow just now. Less is sent at once next time.",
      server: "The server has trouble of its own. Tell the skipper if it stays so.",
      full: "The server has no room left. Tell the skipper.",
      unsound: "What answers is not the boat’s server. If this is a marina’s network, log in to it first.",
      version: "Server and app are of different versions. Load the new version at the dock.",
      phone: "This phone’s storage does not take what came. Free some space; it is tried again by itself.",
      stranger: "The boat’s server does not know this phone any more. Ask the skipper for an invitation.",
    },
    clock: (by: string) =>
      `This phone’s clock is ${by}. The order of the notes does not depend on it, but their times do.`,
    ahead: (minutes: string) => `${minutes} min ahead`,
    behind: (minutes: string) => `${minutes} min behind`,
  },

  aboard: {
    title: "Aboard",
    about: "Bring notes together with the crew’s",
    what: "Calculations and notes need no server. Coming aboard brings the notes of all phones together whenever the boat’s server is in reach.",
    whatGoes:
      "All notes on this phone go to the boat’s server then, and the crew’s come here. A guest sends and sees one trip.",
    insecure:
      "This page came by plain http. A phone can come aboard only over a secure connection (https): the key it gets must not be overheard.",
    invited: "Here is an invitation.",
    yourName: "A name for this phone",
    nameHint: "As the crew will read it beside your notes",
    needName: "Give the phone a name, such as the one of its owner.",
    code: "Code",
    codeHint: "Eight letters and digits, from the skipper",
    needCode:
      "Type the code of eight letters and digits that the skipper’s phone shows, or scan its QR code with the camera.",
    come: "Come aboard",
    scan: "Scan the QR code on the skipper’s phone with the camera, or type the code under it.",
    welcome: (name: string) => `Aboard as “${name}”.`,
    iAm: (name: string, role: string) => `This phone is “${name}”, ${role}.`,
    roles: { skipper: "skipper", mate: "mate", guest: "guest" },
    roleWhat: {
      skipper: "Sees and writes all, invites phones and shuts them out.",
      mate: "Sees and writes all trips.",
      guest: "Sees and writes one trip.",
    },
    again: "Come aboard anew",
    invite: "Invite a phone",
    phones: "Phones aboard",
    unreachable: "The boat’s server is not in reach. This can only be done beside it.",
    slow: "The boat’s server does not answer. Try again.",
    unsound: "What answers is not the boat’s server. If this is a marina’s network, log in to it first.",
    asking: "Asking the boat’s server",
    invitation: {
      role: "Who is it for?",
      trip: "Which trip?",
      noTrip: "A guest is invited to a trip. Start one first.",
      hours: "Good for",
      hoursOf: { "4": "4 hours", "24": "a day", "168": "a week" },
      uses: "Phones",
      make: "Make the invitation",
      scan: "Let them scan this with the camera.",
      qr: "QR code of the invitation",
      orCode: "Or, where the app is open already: Locker, Aboard, and this code",
      codeEnds: (time: string) => `The code works once, until ${time}.`,
      ends: (time: string, uses: number) =>
        `The invitation is good until ${time}, for ${uses === 1 ? "one phone" : `${uses} phones`}. It is not shown again.`,
      another: "Make another",
    },
    phone: {
      you: "this phone",
      out: "shut out",
      enrolled: "Came aboard",
      lastSeen: "Last exchange",
      never: "never",
      missing: "Noted, not here yet",
      trip: "Trip",
      role: "Is",
      shutOut: "Shut this phone out",
      shutOutWhat:
        "It keeps its own notes and can save them, but the server refuses it from now on. To let it in again, invite it.",
    },
  },

  wayIn: {
    code: (url: string) => `QR code for ${url}`,
    scan: "Scan the code with each phone while you are at the dock. Then look at Ready for sea in the Locker.",
    insecure:
      "This address is plain http: phones can use the app while it is open, but cannot keep it for use without signal. Start the server with a certificate for that.",
    here: "Use it here",
    others: "Other addresses",
    earlier: (url: string, keep: string) =>
      `Phones that loaded the app from ${url} keep their rigs there. To have that address back, ${keep}.`,
  },
};

/** Fields that the desk may complain of while something else is set. */
const fieldNames: { [field: string]: string } = {
  low: "The lower edge of the wanted band",
  high: "The upper edge of the wanted band",
  lineOut: "Line out",
  bottom: "The depth of water",
  speed: "The speed",
  mass: "The drail",
};

/** What is kept on the phone under these names. */
const documents: { [name: string]: string } = {
  settings: "The choice of units",
  gear: "Some of the saved gear",
  spread: "The spread, or a rod of it,",
  water: "The temperature and salt of the water",
  doubt: "What was set under How sure",
  pace: "What was set for Pace",
  current: "The current",
  "typed motion": "The speed and course typed",
  marks: "Some marks of how spoons swim",
  notches: "What a notch of the throttle does",
};
