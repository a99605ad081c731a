/** Words of teaching what is known of the lines already. Numbers come in already written, with their units. */

export const teach = {
  teach: {
    title: "What do you know already?",
    ask: "Teach it what you know",
    what: "Settings you trust from before: this line, drail and speed, and it just ticked in so much water. Two or three narrow the ±, the latest most.",
    rig: "Rig",
    place: "Place",
    lineOut: "Line out",
    drail: "Drail",
    sinker: "Sinker",
    speed: "Speed through the water",
    ticks: "Just ticks in",
    sure: "How sure of that depth",
    sures: { sure: "Sure", quite: "Quite", roughly: "Roughly" },
    when: "When was that",
    whens: { now: "This trip", season: "This season", before: "Years ago" },
    add: "Teach it this",
    added: (what: string) => `Taught: ${what}.`,
    gone: (what: string) => `Not counted any more: ${what}.`,
    forget: "Strike it out",
    all: "Taught so far",
    kinds: {
      known: (lineOut: string, reading: string) => `${lineOut} out ticks in ${reading}`,
      angle: (lineOut: string, reading: string) => `${lineOut} out: wire ${reading} below level`,
      entry: (lineOut: string, reading: string) => `${lineOut} out: enters the water ${reading} astern`,
      pull: (lineOut: string, reading: string) => `${lineOut} out pulls ${reading}`,
    },
    before: "Before",
    now: "Now",
    band: (place: string) => `What it brings: ${place}`,
    kept: "Kept on this phone, for its own depths: only skipper and mates teach the boat’s lines.",
    goes: "Goes to the boat’s other phones with the notes of a trip; until one runs it is kept here.",
    effective: (used: string, effective: string) =>
      `${used} count, and tell as much as ${effective} that share nothing.`,
    shared: {
      "": "",
      "speed through the water": "They share one speed: another day, another speed would teach more.",
      "line out and height of the tip":
        "They share one mark on the wire or one rod: another rod would teach more.",
      instrument: "They share one sounder, tide or reading: another day would teach more.",
    },
    more: "More ways to teach it",

    sight: {
      title: "Sight along the wire",
      how: [
        "Stand clear of the wire, behind the rod. Nobody reaches over a loaded wire, and the phone is held clear of it too.",
        "Hold the phone’s long edge along the wire as you see it, from rod tip to water, and keep it there for ten seconds.",
      ],
      start: "Start: ten seconds",
      holding: (left: string) => `Hold it: ${left} s`,
      denied:
        "This phone does not tell its tilt here. Allow motion in the browser’s settings, or type the angle.",
      swings: (spread: string) =>
        `It swung by ${spread}: too much to count. Wait for a steady stretch and try again.`,
      read: (angle: string, spread: string) => `${angle} below level, ± ${spread}`,
      use: "Teach it this angle",
      again: "Again",
      typed: "Or type the angle",
      entry: "Or: where the wire enters the water",
      entryWhat: "So far astern of the rod tip, by eye or by a mark on the wire.",
      useEntry: "Teach it this distance",
    },
    pull: {
      title: "How hard it pulls",
      how: [
        "No hand near loaded wire. Under way at trolling speed, ease the drag until it just slips, then leave the drag as it is.",
        "At the dock, with the lure off, pull line off that drag with a scale and read what it says. A drag whose marks you have weighed before needs no scale.",
      ],
      lineOut: "Line out then",
      speed: "Speed then",
      was: (lineOut: string, speed: string) => `With ${lineOut} out, at ${speed}: change it above.`,
      reads: "The scale reads",
      use: "Teach it this pull",
    },
    right: {
      title: "Was it right?",
      none: "Nothing to show yet. Every touch is compared with what was foretold before it.",
      record: (wire: string, inside: string, touches: string) =>
        `${wire}: ${inside} of the last ${touches} touches fell inside the ±`,
      what: "Of ten, nine should. The bar is where it was foretold to tick, the mark where it did.",
      told: (band: string, read: string) => `foretold ${band}, ticked at ${read}`,
    },
  },
};
