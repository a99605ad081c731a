/** Words of the Pace place. Numbers come in already written, with their units. */
import type { Why as BeatWhy, Feel, Steadiness } from "../../desk/types/beat.gen";
import type {
  Why as DriftWhy,
  Verdict as PaceVerdict,
  Quality,
  SteerWhy,
} from "../../desk/types/current.gen";

export const pace = {
  pace: {
    noSpeed: "No speed known",
    throughWater: "Through the water",
    overGround: "Over the ground",
    reckoned: "reckoned from positions, since this phone tells no speed",
    mean: (seconds: string) => `mean of ${seconds}\u00a0s`,
    fix: (age: string, accuracy: string) => `fix ${age} old, good to ${accuracy}`,
    typedAgo: (age: string) => `typed ${age} ago`,
    gone: (speed: string, age: string) => `No fix for ${age}. It was ${speed}.`,
    before: (speed: string, age: string) => `It was ${speed} ${age} ago.`,
    reckoning: "Fixes come; the speed is being reckoned from positions. That takes ten seconds or so.",
    poor: (accuracy: string) =>
      `Fixes come, but good to ${accuracy} only: too poor to tell a speed. Give the phone open sky, or type the speed.`,
    receivers: {
      resting: "",
      asking: "Waiting for the first fix. Under the open sky it comes within a minute or two.",
      refused:
        "This phone does not give its position to this app. Allow it in the browser’s settings for this address, then open Pace again; or type speed and course from the boat’s own instrument.",
      none: "This phone gives no position here. Type speed and course from the boat’s own instrument.",
      on: "The receiver of this phone tells no speed. Type speed and course from the boat’s own instrument.",
    },
    current: (drift: string, set: string) => `Current ${drift} towards ${set}`,
    weighed: (drift: string, set: string) => `weighed with the tables, which say ${drift} towards ${set}`,
    currentAge: (age: string, rough: boolean) =>
      `${age} old${rough ? ", rough" : ""}. Tide turns: find it anew when in doubt.`,
    currentUnknown: "Current not known, so this is a guess. Find the current.",
    verdicts: {
      "hold it": "Hold it",
      "perhaps hold it": "Perhaps hold it",
      "a little faster": "Faster",
      "a little slower": "Slower",
      "perhaps a little faster": "Perhaps faster",
      "perhaps a little slower": "Perhaps slower",
    } satisfies { [V in PaceVerdict]: string },
    more: (change: string, to: string) => `${change} more over the ground: ${to}`,
    less: (change: string, to: string) => `${change} less over the ground: ${to}`,
    steady: (low: string, high: string) => `Good from ${low} to ${high} over the ground on this course`,
    notches: (n: number) =>
      `${Math.abs(n) === 1 ? "One notch" : `${Math.abs(n)} notches`} ${n > 0 ? "up" : "back"}`,
    notched: "I moved it one notch",
    watchingNotch: "Watching what the notch does: keep straight for 20 s.",
    wantedNow: (low: string, high: string, from: "own" | "learned" | "begun" | "practice") =>
      `Wanted: ${low} to ${high}, ${
        {
          own: "as set here",
          learned: "as your marks of this spoon say",
          begun: "common practice and your first marks",
          practice: "common practice, no source",
        }[from]
      }`,
    gauge: (wanted: string, speed: string) => `Wanted ${wanted}; through the water ${speed}.`,
    swing: (slow: string, fast: string) => `In the last half minute from ${slow} to ${fast} over the ground.`,
    swingDepth: (place: string, deep: string, shallow: string) =>
      `If it stayed at either end, ${place} would ride ${deep === shallow ? `at ${deep}` : `between ${shallow} and ${deep}`}; quick surges reach the lure much weakened.`,
    useOnLines: "Lines takes this speed",
    following: "Lines follows this speed",
    deck: "Beat and current",
    tapBeat: "Tap the beat",
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
        "too few taps": "Go on tapping with the beat.",
        "too irregular": "Too irregular: tap once for each beat, or wait for a steady one.",
        "too slow or fast": "Too slow or too fast to be a beat: tap once for each.",
      } satisfies { [W in BeatWhy]: string },
      steadiness: { "not known": "", steady: "Even taps", uneven: "Uneven taps" } satisfies {
        [S in Steadiness]: string;
      },
      more: (n: number) =>
        n === 1 ? "one more tap for ±\u202f5\u00a0%" : `${n} more taps for ±\u202f5\u00a0%`,
      enough: "±\u202f5\u00a0% or better",
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
      begun: (low: string, high: string, marks: number) =>
        `So far ${low} to ${high}, by common practice (no source) and your ${
          marks === 1 ? "first mark" : `first ${marks} marks`
        }.`,
      toRest: (slow: number, right: number, fast: number) =>
        `To go by your marks alone: ${[
          slow > 0 && `${slow} too slow`,
          right > 0 && `${right} right`,
          fast > 0 && `${fast} too fast`,
        ]
          .filter(Boolean)
          .join(", ")} more.`,
      unclear:
        "These marks do not go with beat and speed. Take back a wrong one in Notes, or begin anew for this spoon.",
      practice: (low: string, high: string, label: string) => `To start with: ${low} to ${high} (${label}).`,
      judge: "How does it swim? A mark teaches this phone.",
      rods: "Whose beat",
      tip: { "too slow": "dead", right: "thumps", "too fast": "spins" } satisfies {
        [F in Feel]: string;
      },
      justNote: "Only note it",
      noted: (feel: Feel | undefined) => (feel ? `Marked and noted: ${feel}.` : "Noted: the beat."),
      old: (age: string) => `tapped ${age} ago`,
      forget: "Forget this spoon’s marks",
      forgotten: "Forgot this spoon’s marks.",
    },

    finding: {
      title: "Find the current",
      what: "On different headings at one throttle setting, speed over the ground gives the current away.",
      anyTurn: "With the lines as set on Lines any turn will do.",
      noTurn:
        "With the lines as set on Lines no turn keeps them clear: find it before they go out, or by two straight legs on opposite headings.",
      notTighter: (lasts: string, radius: string) =>
        `With the lines as set on Lines: no whole circle in less than ${lasts}, a radius of ${radius}.`,
      careful: "Lines out: turn widely. A tight turn sinks the inside lures and may cross the wires.",
      turn: "By a turn",
      turnHow:
        "Set the throttle and leave it. Begin when already turning, and turn steadily: a whole circle, at least half, no tighter than your lines allow.",
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
        "too few samples": "Too few fixes yet: go on at steady throttle.",
        "headings too close": "Turn on: at least 90°, better 180° or more.",
        "only two headings": "Only two headings so far: hold a third, well apart from both.",
        "too uncertain": "Too uncertain: turn further and more slowly, at steady throttle.",
        "no single current": "This does not fit one current. Hold the throttle and begin anew.",
        "legs not opposite":
          "Two legs must be held on opposite headings. Hold a third one, well apart from both.",
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
        "swept across": "The current across this track is faster than the boat: go faster or choose another.",
        "swept back": "The current against this track is faster than the boat: go faster or wait.",
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
      seconds: (n: number) => `${n}\u00a0s`,
      windowWhy: "Longer is calmer and later. In a sea: 20 s or more.",
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
};
