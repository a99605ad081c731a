/** Words of the Crew place. Numbers come in already written, with their units. */
/** A page of the briefing: words to read from, and where they come from. */
interface BriefingPage {
  title: string;
  words: string[];
  from: string;
}

const practice = "Common practice, no source.";

/** Said over the radio: in the language of those who listen, whatever the phone speaks. */
export const say = {
  call: "Mayday, Mayday, Mayday.",
  is: (name: string, sign: string, mmsi: string) =>
    `This is ${name}, ${name}, ${name}${sign && `, call sign ${sign}`}${mmsi && `, M M S I ${mmsi}`}.`,
  again: (name: string) => `Mayday ${name}.`,
  position: (place: string) => `My position is ${place}.`,
  ground: (ground: string) => `Near ${ground}.`,
  nature: "We are …",
  lost: (ago: string, where?: string) =>
    `Person overboard, ${ago} ago.${where ? ` Look for them at ${where}.` : ""}`,
  help: "We need help at once.",
  people: (count: string) => (count === "1" ? "1 person aboard." : `${count} people aboard.`),
  hurt: "… hurt.",
  oneOut: "One of them is in the water.",
  looks: (all: string) => `The boat is ${all}.`,
  listening: "Listening on channel 16.",
  over: "Over.",
  unknown: "…",
  yourBoat: "(name)",
};

/** Lists that come with the app, besides which there are those of the boat's own. */
const lists = {
  leaving: "Before leaving",
  out: "Lines out",
  in: "Lines in",
  turn: "Before the turn",
  dock: "At the dock",
  buy: "To buy or mend",
};

/** Checks that come with the app; in the log they stand by these names. */
const checks = {
  weather: "Weather, sea and tide looked up, and within our own limits: go",
  rules: "Rules on fish and gear looked up, for today and where we fish",
  plug: "Drain plug in",
  bilge: "Bilge dry, pump tried, bailer aboard",
  fuel: "Fuel: a third out, a third back, a third in hand",
  jackets: "A life jacket that fits, for each person; a child’s for each child; on",
  throwable: "Something that floats, to throw, at hand",
  extinguisher: "Extinguisher: charged, not past its date, at hand",
  flares: "Flares or other distress signals: not past their date, dry, at hand",
  horn: "Horn or whistle: tried",
  lights: "Lights: all tried, torch aboard",
  anchor: "Anchor and line: clear to run",
  radio: "VHF tried, on the channel for radio checks, not on 16",
  cutoff: "Cut-off worn by whoever steers",
  cutter: "Wire cutter where all can reach it",
  firstAid: "First aid, drinking water, knife",
  briefed: "Everyone has heard the briefing and ticked",
  plan: "Float plan left with somebody ashore who will call",
  ready: "Every phone: Ready for sea in the Locker",
  clearAhead: "Clear ahead, and room to go straight",
  straight: "Helm: dead straight, steady speed, and has said so",
  gloves: "Gloves on; no wire round anything but the spool",
  leashed: "Leash on this rod",
  swims: "Spoon beside the boat: it swims, it does not spin",
  braked: "Spool braked all the way out",
  marks: "Marks said aloud, line out noted on Lines",
  steadyIn: "Helm: straight on, same speed",
  oneAtATime: "One line at a time; somebody watches the others",
  laidEven: "Wire laid evenly across the spool, under tension",
  standClear: "Everyone clear before the spoon is lifted",
  guarded: "Hooks guarded, rod in its holder",
  wireSeen: "Wire looked over: no kink, no broken strand",
  room: "Room all round: boats, buoys, other people’s lines",
  noneMoving: "No wire going out or coming in, no fish on",
  depthThere: "Depth on the new course looked up: inside lures sink",
  tellAll: "Everyone told, and holding on",
  wide: "Wide and slow, speed through the water kept",
  called: "The person ashore called: we are back",
  iced: "Fish counted, on ice",
  rinsed: "Wire, reels and spoons rinsed",
  kinks: "Kinked wire taken off, to be replaced",
  needed: "What to buy or mend is on the list",
  switches: "Fuel, bilge, battery switch",
  sent: "Every phone: All sent, in Notes",
  closed: "Trip closed, in Notes",
};

export type ListName = keyof typeof lists;
export type CheckName = keyof typeof checks;

/** The least that US law asks of pleasure boats, by check, with its source and date. Passengers for hire: more. */
const legal: { [C in CheckName]?: string } = {
  jackets:
    "Law: one wearable for each person; a child under 13 wears it under way; states may ask for more. 33 CFR 175.15 and 175.25, by a copy of 2024.",
  throwable: "Law: one, from 16 ft of length. 33 CFR 175.15, by a copy of 2024.",
  extinguisher:
    "Law: at least one where fuel or vapour can be trapped; an open outboard boat under 26 ft need have none. 33 CFR 175.320, by a copy.",
  flares:
    "Law: on coastal waters for day and night from 16 ft, for night on all boats. 33 CFR 175.101 to 140, by a Coast Guard guide as quoted.",
  horn: "Law: under 12 m, some means to make an efficient sound. COLREGs, Rule 33.",
  lights: "Law: from sunset to sunrise and when it is hard to see. COLREGs, Rule 20, from memory.",
  cutoff:
    "Law: link used on plane or above displacement speed, boats under 26 ft that have one. 46 USC 4312; the length by the press.",
};

export const crew = {
  crew: {
    deck: "Briefing, and help by radio",
    briefing: "Briefing",
    briefingWhat: "five minutes",
    mayday: "Call for help",
    maydayWhat: "words for VHF 16",
    told: (done: number, all: number) => `${done} of ${all} have ticked`,
    listsTitle: "Checklists",
    done: (done: number, all: number) => `${done} of ${all} done`,
    ashore: "For the person ashore",
    boatTitle: "This boat",
    rest: "Plan, boat, gear",
    boatMissing: "Not told yet: the radio words need it",
    print: "Print",
    printAll: "Print all checklists",

    reading: {
      title: (number: number, all: number) => `Briefing, page ${number} of ${all}`,
      turn: "Turn the page",
      before: "Before",
      next: "Next",
      aloud: "Read it out",
      hush: "Be quiet",
      end: "Tick it",
    },

    pages: {
      master: {
        title: "The skipper decides",
        words: [
          "On board the skipper has the last word. When the skipper says stop, stop at once.",
          "Ask now, and ask again out there. If you feel ill, cold or afraid, say so early.",
          "No alcohol under way.",
        ],
        from: practice,
      },
      wire: {
        title: "Wire under load",
        words: [
          "The line is steel. With a fish or the bottom on it, it cuts to the bone.",
          "Never wrap it round a hand. Gloves on, or hands off.",
          "Never touch a running spool. Never stand in line with a loaded rod.",
        ],
        from: practice,
      },
      hooks: {
        title: "Hooks",
        words: [
          "Spoons are heavy and their hooks are bare. Look behind you before you lift one.",
          "Nobody reaches for the lure of a fish that still moves: it has a second hook.",
          "Shoes on. A lure is never laid on a seat.",
        ],
        from: practice,
      },
      place: {
        title: "Where to stand",
        words: [
          "One hand for yourself, always. Sit while the boat turns or speeds up.",
          "Keep the stern free for whoever works a rod.",
          "Never lean over the side alone. Never stand between rod tip and water.",
        ],
        from: practice,
      },
      helm: {
        title: "One steers",
        words: [
          "Whoever steers does nothing else. Dead straight, and steady speed.",
          "While wire goes out or comes in: never turn, stop or go astern, unless the skipper says so.",
          "Before a turn: say it, and wait for the answer.",
        ],
        from: practice,
      },
      lineOut: {
        title: "One lets out",
        words: [
          "Whoever lets out looks only at the spool, and brakes it all the way. A spool that overruns kinks the wire.",
          "A kinked wire breaks. It is replaced, never fished.",
          "Say “out”, say the marks, say “set”.",
        ],
        from: practice,
      },
      leash: {
        title: "Belt and leash",
        words: [
          "A rod gets its leash before it goes out, every rod, every time.",
          "A large fish is fought with the belt on, and the rod in it.",
          "The leash holds the rod to the boat. Never tie it to a person.",
        ],
        from: practice,
      },
      jacket: {
        title: "Life jacket",
        words: [
          "Everybody has one that fits, and wears it. Try it on now.",
          "Find the buckle with your eyes closed. If it inflates: find the toggle.",
          "Children wear theirs at all times. Local rules may ask for more.",
        ],
        from: "33 CFR 175.15, from memory: one for each. Worn: common practice.",
      },
      cutoff: {
        title: "Cut-off",
        words: [
          "Whoever steers wears the engine cut-off. If they go over the side, the engine stops.",
          "Look where it is, and how the engine starts again.",
          "The law may ask for it only at speed. Here it is worn always.",
        ],
        from: "46 USC 4312, by a notice of the US Coast Guard; not while trolling: the press.",
      },
      radio: {
        title: "Radio, channel 16",
        words: [
          "In grave danger anybody may call. Switch on, channel 16, press the key, speak, let go, listen.",
          "The words are below, and on every phone in Crew: Call for help.",
        ],
        from: "Order of the words: US Coast Guard Navigation Center, by a copy of its page. Radio checks on another channel: US Coast Guard, 2024.",
      },
      overboard: {
        title: "Somebody overboard",
        words: [
          "Shout. Throw what floats. One person points at them and does nothing else.",
          "Turn back slowly, and stop the engine beside them. Lines do not matter: cut them.",
          "Touch “Overboard”, then “Yes”. Not back at once: Mayday.",
        ],
        from: "Transport for New South Wales, Maritime; the one who only points: the press.",
      },
      hooked: {
        title: "A hook in a hand",
        words: [
          "Hold still. Cut the line. Cut off or tape the other points.",
          "In an eye, the face, deep, or near a joint: leave it in, cover it, and go to a doctor.",
          "What else is done, the skipper decides. Wash it; a doctor looks at it and at the tetanus shot.",
        ],
        from: "Harvard Medical School; a notebook for family doctors. A doctor’s advice comes first.",
      },
      cold: {
        title: "Cold water",
        words: [
          "The first minute: you gasp. Hold on to something, and breathe.",
          "Ten minutes: your hands still work. Get to the boat, get help.",
          "About an hour until you lose your senses. The jacket holds you up for it. Draw up your knees, stay together.",
        ],
        from: "Cold Water Boot Camp; knees and staying together from memory.",
      },
      sun: {
        title: "Sun and sea",
        words: [
          "Hat, sleeves, sun cream, dark glasses: also against hooks.",
          "Drink water before you are thirsty.",
          "Seasick? Say so. Fresh air, look at the horizon. Sit, and be held, if you must lean out.",
        ],
        from: "From memory.",
      },
    } satisfies { [page: string]: BriefingPage },

    ticking: {
      title: "Who has heard it?",
      how: "Everyone taps their own name: I have heard it, and I have asked what I did not understand.",
      nobody: "No names yet. Add them here.",
      name: "First name or nickname",
      add: "I have heard it",
      heard: (when: string) => `heard it, ${when}`,
      notYet: "not yet",
      alone:
        "No trip runs. These ticks stay on this phone, and go along if a trip begins here within 18 hours.",
    },

    radio: {
      title: "Call for help",
      when: "Mayday is for grave and immediate danger to boat or person. Urgent but not that: say “Pan-Pan” three times instead.",
      first: "If the radio has a red button under a cover: lift it, hold the button until it sounds.",
      channel: "Channel 16, high power. Hold the key down, speak slowly, and then let it go.",
      /** The same in the language of the phone, where that is another. */
      meaning: undefined as typeof say | undefined,
      readPosition: "Read the position from the plotter, or say how far and where from what.",
      positionAge: (age: string) => `Position by this phone, ${age} old. The boat’s own plotter comes first.`,
      natures: "sinking · on fire · aground · somebody overboard · somebody badly hurt",
      listen: "Listen. No answer: say it all again. No radio: the local emergency number by phone.",
      howMany: "How many are aboard?",
      notTold: "not told",
      countSkipper: "Count everybody, the skipper too.",
      thatMany: (count: string) => `Yes, ${count}, skipper counted`,
      missing: "This boat’s name is not told yet.",
      tellBoat: "Tell the boat’s particulars",
      checks: "For a radio check use the channel set aside for it where you are, never 16.",
    },

    boat: {
      title: "This boat",
      what: "For the radio words and the float plan. Kept on this phone; on the phones of the crew too as soon as a trip runs. Guests of the trip can read it.",
      name: "Name of the boat",
      registration: "Registration",
      registrationHint: "As on the bow",
      callSign: "Call sign",
      mmsi: "MMSI",
      mmsiHint: "Nine digits, from the radio’s papers",
      mmsiWrong: "An MMSI has nine digits. It is kept as typed, and not read out until it has.",
      length: "Length",
      type: "What sort of boat",
      typeHint: "Such as: open boat, one outboard",
      hull: "Colour",
      hullHint: "Hull, and what is seen from above",
      people: "People aboard, as a rule",
      peopleHint: "A trip with names counts those.",
      ground: "Usual ground",
      safety: "Emergency equipment aboard",
      safetyHint: "Such as: jackets for six, flares, radio, beacon, first aid",
      phone: "Phone aboard",
      unset: "not told",
    },

    lists: lists as { [list: string]: string } & typeof lists,

    legal: legal as { [check: string]: string | undefined },
    legalWhat:
      "Where it says Law: the least that US federal law asks of pleasure boats, as the source had it. Boats with paying passengers, and states, have more. The skipper looks it up.",
    checks: checks as { [check: string]: string } & typeof checks,

    list: {
      practice: "Common practice, no source. Where the skipper or the rules ask for more, do that.",
      begins: "The first tick begins a trip. Every trip begins with no ticks.",
      again: "Begin anew",
      begunAnew: (name: string) => `No ticks any more: ${name}.`,
      ticked: (who: string, when: string) => `${who}, ${when}`,
      empty: "Nothing on this list yet.",
      edit: "Change this list",
      make: "Make a list of your own",
      unnamed: "List of our own",
      name: "Name of the list",
      item: (number: number) => `Check ${number}`,
      up: (what: string) => `Up: ${what}`,
      down: (what: string) => `Down: ${what}`,
      remove: (what: string) => `Take off: ${what}`,
      removed: (what: string) => `Taken off: ${what}.`,
      add: "Add a check",
      addButton: "Add",
      full: "This list is full.",
      crews: "The skipper or a mate changes this list. You can tick it, and tell them what is missing.",
      asItCame: "As it came",
      isAsItCame: "It is as it came.",
      asItCameDone: (name: string) => `As it came: ${name}.`,
      drop: "Remove this list",
      dropped: (name: string) => `Removed: ${name}.`,
      shared:
        "Changes go to the crew’s phones with the running trip. Without one they go along with the next.",
    },

    weather: {
      title: "Go or stay",
      today: "The forecast for today",
      limits: "Our own limits",
      names: {
        wind: "Wind, with its gusts",
        sea: "Height of the sea",
        sight: "Sight",
        warning: "a warning is out",
      },
      warning: "A warning for small craft is out",
      notTold: "not told",
      verdicts: {
        go: "Within our limits: go",
        stay: "Beyond our limits: stay",
        unknown: "Not told yet",
      },
      beyond: (what: string) => `Beyond: ${what.toLowerCase()}.`,
      open: (what: string) => `Still to look up: ${what.toLowerCase()}.`,
      own: "Limits are the skipper’s own, for this boat and the weakest aboard, set ashore. Kept on this phone. The look at the water comes last and counts most. Common practice, no source.",
    },

    floatplan: {
      title: "Float plan",
      what: "Leave it with somebody ashore who stays reachable. That person calls the coast guard, which keeps no float plans. Ask locally what is usual.",
      from: "Leaving from",
      ground: "Going to",
      leaving: "Leaving",
      back: "Back by",
      alarm: "Call for help if not heard of by",
      car: "Car and trailer, where they stand",
      people: "Aboard",
      peopleHint: "Names. From the trip, if one runs",
      rescue: "Coast guard, number to call",
      rescueHint: "Look up the one for your waters, and try the local emergency number last",
      more: "What else they should know",
      order: "The time to call for help should be later than the time to be back.",
      share: "Share it",
      copy: "Copy it",
      copied: "Copied. Paste it into a message.",
      notCopied: "This browser does not let it be copied. Mark the text and copy it, or save it.",
      save: "Save as a file",
      saved: "Saved.",
      file: "float-plan.txt",
      source:
        "What it asks: float plans of the US Coast Guard Auxiliary, by a copy and the press. The order of calling: a float plan site; otherwise common practice.",
      after: "Back at the dock: call that person. A plan that nobody ends sends people out to search.",
      sheet: {
        title: "FLOAT PLAN",
        boat: "Boat",
        phone: "Phone aboard",
        aboard: (count: string) => `Aboard (${count})`,
        safety: "Emergency equipment aboard",
        wanted: "Fishing",
        depth: (depth: string) => `trolling, about ${depth} of water`,
        todo: (when: string) => `IF YOU HAVE NOT HEARD FROM US BY ${when}`,
        noTime: "the time agreed",
        call: (phone: string) => `1. Call us${phone && `: ${phone}`}. Then each of those aboard.`,
        look: (car: string) =>
          `2. No answer: ask the marina whether the boat is back${car && `, and look where car and trailer stand: ${car}`}.`,
        rescue: (number: string) =>
          `3. Still nothing: call the coast guard${number && `: ${number}`}. It is you who calls; nobody else will. Read this plan to them.`,
        stay: "4. Stay reachable until they say otherwise.",
        back: "5. We are back after all: call them again, so that nobody searches on.",
        unknown: "…",
      },
    },

    gear: {
      title: "Gear and trouble",
      what: "Trouble noted, what to buy or mend",
      kinked: "A kinked wire is replaced, never fished: it breaks at the kink, under load.",
      shopping: "To buy or mend",
      nothing: "Nothing to buy or mend.",
      got: (what: string) => `Done: ${what}`,
      gotDone: (what: string) => `Off the list: ${what}.`,
      add: "Something else to buy",
      addButton: "Put it on",
      troubles: "Trouble on this trip",
      none: "None noted.",
      note: "Note trouble with",
      choose: "Which piece?",
      which: (name: string) => `Trouble: ${name}`,
      happened: "What happened? One tap notes it and puts it on the list to buy or mend.",
      toMend: (name: string, what: string) => `${name}: ${what.toLowerCase()}`,
      toReplace: (name: string) => `New wire for ${name} (kinked)`,
      other: "Something else",
      begins: "Noting it begins a trip.",
    },
  },
};

export type PageName = keyof (typeof crew)["crew"]["pages"];
