/** Words of the frame around every place: names, units, notices, cautions. Numbers come in already written, with their units. */
import { named } from "../../store/named.ts";

export const frame = {
  language: "en",

  /** Names, sources and notes of the catalogue and rules to begin with, which are kept as they came, in English. */
  fromDesk: {} as { [english: string]: string },

  app: {
    name: "Wirewake",
    description: "How deep every lure runs on wire line: computed on this phone, with no signal.",
  },

  places: { lines: "Lines", pace: "Pace", notes: "Notes", fish: "Fish", crew: "Crew" },

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
    nm: "nm",
    "lb of mass": "lb",
    "kg of mass": "kg",
    h: "h",
    "W/(m²·K)": "W/(m²·K)",
    "g/cm³": "g/cm³",
    "cm²": "cm²",
    "°": "°",
    "×": "×",
    "": "",
    "%": "%",
    "mm²/s": "mm²/s",
    "/min": "a minute",
    "°C": "°C",
    "°F": "°F",
    L: "L",
    qt: "qt",
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
    otherWord: "Other",
    typed: (field: string) => `${field}, in other words`,
    tapToType: "Tap to type a number",
    first: { back: "As first set", is: "All is as first set.", done: "All is as first set again." },
    gone: "Not here any more",
    goneWhy: "This was removed, or the address is wrong. Nothing else is lost.",
  },

  /** Of what comes by itself from the boat's instruments, on whatever page. */
  heard: {
    parts: { depth: "the depth", speed: "the speed", warmth: "the temperature" },
    live: "from the boat’s instruments",
    mark: (age: string) => `from the boat’s instruments, ${age} old`,
    byHand: (part: string) => `From now on ${part} is as set by hand.`,
  },

  problems: {
    range: (min: string, max: string, unit: string) =>
      `Must be from ${min} to ${max} ${unit}. Still as it was.`,
    notANumber: (kept: string) => `This is not a number. Still ${kept}: type digits, like 3.2.`,
    /** What the desk says in English, by its id. */
    byId: {} as { [id: string]: string },
    /** By the desk's code, where it gives no id. */
    byCode: {} as { [code: string]: (min: string, max: string) => string },
    other: (what: string) => `${what.charAt(0).toUpperCase()}${what.slice(1)}.`,
    /** A problem with something that is set elsewhere. */
    named: (field: string, what: string) => `${fieldNames[field] ?? field} ${what}. Still as it was.`,
  },

  locker: {
    title: "Locker",
    language: "Language",
    units: {
      depth: "Depth in",
      line: "Line in",
      weight: "Weights in",
      pull: "Pull and strength in",
      temperature: "Temperature in",
    },
  },

  /** How often in ten. */
  odds: {
    under: "under 1 in 10",
    over: "over 9 in 10",
    in: (times: string) => `${times} in 10`,
    /** Where there is no room for more. */
    brief: { under: "<1 in 10", over: ">9 in 10" },
  },

  ages: {
    seconds: (n: string) => `${n}\u00a0s`,
    minutes: (n: string) => `${n}\u00a0min`,
    both: (minutes: string, seconds: string) => `${minutes}\u00a0min ${seconds}\u00a0s`,
    hours: (n: string) => `${n}\u00a0h`,
  },

  quick: {
    mark: "Mark",
    noteTouch: "It touched",
    fishUp: "Fish up",
  },

  cry: {
    control: "Overboard",
    arm: {
      ask: "Is somebody overboard?",
      noted: (time: string, place: string, age: string) =>
        place
          ? `Place and time of the touch are held: ${time}, ${place}, a fix of ${age} ago.`
          : `The time of the touch is held: ${time}. No place yet.`,
      yes: "Yes: overboard",
      other: "Another emergency",
      no: "No",
    },
  },

  wetLock: {
    name: "Wet lock",
    short: "Lock",
    on: "Locked against water and sleeves.",
    how: "Tap 1, then 2.",
    first: "1",
    second: "2",
    firstName: "Unlock: first tap",
    secondName: "Unlock: second tap",
  },

  notices: {
    undo: "Undo",
    short: {
      restarted: "The calculator was started again",
      storage: "Something could not be read",
      early: "Something was kept aside",
      update: "A new version is here",
      insecure: "Not kept for sea yet",
      away: "A part of the app did not come",
      stopped: "Calculator stopped",
      unsaved: "Not saved",
      full: "Storage full",
      more: (first: string, others: number) => (others > 0 ? `${first}, and ${others} more` : first),
      hide: "Less",
    },
    nextAlarm: (at: number, of: number, next: string) => `${at} of ${of}. Next: ${next}`,
    otherAlarms: (others: string[]) => `Also: ${others.join(", ")}.`,
    noted: "Noted",
    startAgain: "Start it again",
    deskRestarted: "The calculator stopped and was started again. Nothing you entered is lost.",
    deskStopped: "The calculator does not start: depths are old or missing. Nothing is lost.",
    storage: {
      unopened: (documents: string[]) =>
        `This phone’s storage has not answered: the usual values are shown. What is saved there comes in once it answers; what you change before is saved then, or kept aside where something was saved already. Not read: ${nameAll(documents)}.`,
      unsaved: (full: boolean): string =>
        full
          ? "This phone’s storage is full: your last changes are shown but not saved. Free some space; saving goes on by itself."
          : "Your last changes are shown but not saved. Keep this page open; saving is tried again by itself.",
    },
    aside: {
      report: "The app could not show something, by a fault of its own. A report of it is kept here.",
      what: (documents: string[]) =>
        `This could not be read: ${nameAll(documents)}. It was kept aside as it was; the usual values stand in for it. Check them.`,
      early: (documents: string[]) =>
        `This phone’s storage answered late: what was saved there is shown. What was changed here before that was kept aside: ${nameAll(documents)}.`,
      save: "Save it to a file",
      saved: "A file of it is saved.",
      letGo: "Let go of it",
      gone: "Let go of what was put aside.",
    },
    failed: {
      what: (what: string) =>
        `${what}: this cannot be shown, by a fault of the app. Everything else goes on, and nothing you entered is lost. A report of it is in the Locker.`,
      again: "Try again",
      page: "This page",
    },
    notLoaded: {
      what: "This page did not load. With the boat’s server in reach it comes; nothing you entered is lost.",
      again: "Load again",
    },
    update: "There is a new version. Load it when you are at the dock.",
    loadUpdate: "Load it",
    insecure:
      "This page came by plain http, so the phone cannot keep it: with no signal it will not open again. It works while it stays open.",
    whatToDo: "What to do",
  },

  cautions: {
    title: "Cautions",
    about: "Wire, hooks, sea and law",
    short: "Wire under load cuts. Watch the sounder. The master decides.",
    estimate: "Depths are estimates; the ± is where the lure rides nine times in ten. Watch the sounder.",
  },
};

/** Fields that the desk may complain of while something else is set. */
const fieldNames: { [field: string]: string } = {
  low: "The lower edge of what is wanted off bottom",
  high: "The upper edge of what is wanted off bottom",
  lineOut: "Line out",
  bottom: "The depth of water",
  speed: "The speed",
  mass: "The drail",
};

/** What is kept on the phone under these names. */
const documents: { [name: string]: string } = {
  log: "the notes",
  settings: "the choice of units",
  gear: "some of the saved gear",
  spread: "the spread, or a rod of it",
  water: "the temperature and salt of the water",
  doubt: "what was set under How sure",
  pace: "what was set for Pace",
  current: "the current",
  "typed motion": "the speed and course typed",
  marks: "some marks of how spoons swim",
  boat: "some of this boat’s particulars",
  lists: "some checklists",
  /** Kept under this name since before the plan of the spread. */
  plan: "the float plan",
  briefed: "some ticks of the briefing",
  notches: "what a notch of the throttle does",
  rules: "some of the rules of size and bag",
  fish: "some of the fish in hand and on ice",
  ice: "the ice plan, or a box of it",
  slush: "what was set for the slush",
  keeping: "the temperatures of a fish",
  lessons: "what touches have taught of the lines",
  taught: "what was taught of the lines",
  teaching: "what you were teaching",
  soundings: "what the sounder read",
  "bottom-set": "when Bottom was set",
  forgotten: "which soundings were forgotten",
  hands: "how many people are aboard",
};

const nameAll = (names: string[]) =>
  named(names, documents, "something saved on this phone", (others) => `and ${others} more`);
