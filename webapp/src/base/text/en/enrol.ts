/** Words of coming aboard: the way in, readiness, phones. Numbers come in already written, with their units. */

export const enrol = {
  enrol: {
    title: "Aboard",
    about: "Bring notes together with the crew’s",
    what: "Calculations and notes need no server. Coming aboard brings the notes of all phones together whenever the boat’s server is in reach.",
    whatGoes:
      "All notes on this phone go to the boat’s server then, and the crew’s come here. A guest sends and sees one trip.",
    insecure:
      "This page came by plain http. A phone can come aboard only over a secure connection (https): the key it gets must not be overheard.",
    gone: "The boat does not know this phone any more: it was shut out, or not seen for long.",
    goneWhat:
      "What you noted stays on this phone. To have it go to the crew again, ask the skipper here, or type the code of a new invitation.",
    invited: "Here is an invitation.",
    yourName: "A name for this phone",
    nameHint: "As the crew will read it beside your notes",
    needName: "Give the phone a name, such as the one of its owner.",
    named:
      "A phone aboard has this name, or one that looks the same. Choose another, as with a surname. If it was this phone, the skipper can shut that one out.",
    ours: "The app itself calls phones so, or what they are aboard. Choose a name of its own, such as the one of its owner.",
    code: "Code",
    codeHint: "Eight letters and digits, from the skipper",
    needCode:
      "Type the code of eight letters and digits that the skipper’s phone shows, or scan its QR code with the camera.",
    come: "Come aboard",
    byCode: "Or with a code",
    scan: "If the skipper has made an invitation for you, scan it with the camera, or type the code under it.",
    /** How much of the way is left after this. */
    left: (n: number) =>
      n === 0 ? "This is the last step." : n === 1 ? "One step after this." : `${n} steps after this.`,
    on: { ready: "On: is this phone ready for sea?", briefing: "On: the briefing", lines: "On: the lines" },
    asks: {
      iosFirst:
        "On iPhone and iPad, first put the app on the home screen and ask from there: it begins as new there.",
      what: "This phone asks, and the skipper’s phone says yes.",
      ask: "Ask the skipper",
      word: "Your word is",
      say: "Say it to the skipper: their phone shows your name and the same word. That may take a moment.",
      until: (time: string) =>
        `Waiting for a yes until ${time}. You can put the phone away; keep this page open.`,
      nobody: (word: string) =>
        `No skipper’s phone is aboard yet to say yes. Whoever runs the boat’s server types there: wirewake welcome ${word} --role skipper (and --data, if the server has one)`,
      giveUp: "Do not wait",
      refused: "The skipper’s phone said no. Speak to the skipper.",
      lapsed: "Nobody answered in time.",
      named: "Meanwhile a phone aboard has this name, or one that looks the same. Ask again under another.",
      again: "Ask again",
      otherwise: "Another way aboard",
    },
    waiting: {
      some: (name: string, word: string) => `${word}: “${name}” asks to come aboard.`,
      many: (n: number) => `${n} phones ask to come aboard.`,
      look: "Look",
      title: (name: string) => `“${name}” asks to come aboard`,
      compare: "Only if that phone shows this word, held beside yours:",
      as: "As",
      yes: "Yes, aboard",
      no: "No",
      block: "No, and block",
      more: (n: number) => `${n} more`,
      unseen: (n: number) => `${n} more wait, too many to show. Type the word that the phone shows.`,
      word: "Word",
      noWord: "No phone asks under this word.",
      noToAll: (n: number) => `No to all ${n}`,
      blockWhat: "Blocked, nobody can ask from that phone’s network address for twelve hours.",
      told: (name: string, role: string) => `“${name}” may come aboard: ${role}.`,
      takeBack: "Take it back",
      blocked: (n: number) =>
        n === 1
          ? "Phones at one network address may not ask."
          : `Phones at ${n} network addresses may not ask.`,
      unblock: "Let them ask again",
    },
    oneCode: {
      title: "One code for everybody",
      how: "Let them scan this, at the dock, on the boat’s network. Their phone is led through all of it and asks to come aboard; you say yes here.",
      fingerprint:
        "Where their phone shows the certificate’s SHA-256 fingerprint before it trusts it, it must be this:",
      away: "Beside the boat’s server the code is here that is enough for everybody.",
      notForPhones: "Phones cannot reach the address that this server runs under.",
    },
    welcome: (name: string) => `Aboard as “${name}”.`,
    iAm: (name: string, role: string) => `This phone is “${name}”, ${role}.`,
    /** What the server says in English, by its code. */
    saidByServer: {} as { [code: string]: string },
    roles: { skipper: "skipper", mate: "mate", guest: "guest" },
    roleWhat: {
      skipper: "Sees and writes all, invites phones and shuts them out.",
      mate: "Sees and writes all trips.",
      guest: "Sees and writes one trip.",
    },
    again: "Come aboard anew",
    skippers:
      "Only the skipper’s phone lets others aboard and shuts them out. Whoever wants to come aboard asks from their own phone: Locker, Aboard.",
    invite: "Invite a phone",
    phones: "Phones aboard",
    unreachable: "The boat’s server is not in reach. This can only be done beside it.",
    slow: "The boat’s server does not answer. Try again.",
    unsound: "What answers is not the boat’s server. If this is a marina’s network, log in to it first.",
    asking: "Asking the boat’s server",
    invitation: {
      title: "An invitation that needs no yes",
      what: "For phones that open the app already, or later, or elsewhere: whoever has the link or the code comes aboard.",
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
    open: {
      title: "Open invitations",
      what: "Whoever has the link of one comes aboard by it.",
      none: "None is open.",
      mayComeBack: (n: number) =>
        `Whoever was shut out comes aboard again by ${n === 1 ? "this one" : "any of these"}, with its link.`,
      cameBy: "This phone had come by it.",
      uses: (n: number) => (n === 1 ? "for one phone" : `for ${n} phones`),
      until: (time: string) => `until ${time}`,
      made: (time: string, who?: string) => `made ${time} ${who ? `by ${who}` : "in the terminal"}`,
      end: "End it",
      endAll: (n: number) => `End all ${n}`,
    },
    phone: {
      you: "this phone",
      out: "shut out",
      outSince: "Shut out",
      outs: (count: number) => `Shut out: ${count}`,
      enrolled: "Came aboard",
      lastSeen: "Last exchange",
      never: "never",
      holds: (count: number) => `${count} held back`,
      holding: "Held back there",
      holdsWhat:
        "These notes or photos are not on the boat’s server, as that phone said in its last exchange. “What is not sent” on it says why, and what to do.",
      missing: "Noted, not here yet",
      ready: "Ready for sea, as of",
      trip: "Trip",
      role: "Is",
      shutOut: "Shut this phone out",
      shutOutWhat:
        "It keeps its own notes and can save them, but the server refuses it from now on. To let it in again, invite it.",
    },
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
          "The page came by plain http: browsers keep nothing of it. Open the https address the skipper’s computer shows, or ask the skipper to start the server with a certificate.",
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
        refused:
          "It was asked and gave no promise. Bring the app to the home screen, then ask it again; until then save your notes to a file now and then.",
        never:
          "This browser makes no such promise. Bring the app to the home screen, and do not clear the browser’s data.",
        act: "Ask the phone",
      },
      room: {
        name: "Room for notes and photos",
        good: (used: string, free: string) => `The app takes ${used}; there is room for ${free} more.`,
        unknown: "This browser does not say how much room there is.",
        todo: (free: string) =>
          `Only ${free} are left. Notes are kept first; photos wait when it is full. Free some space on the phone.`,
      },
      install: {
        name: "On the home screen",
        good: "The app runs from the home screen.",
        todo: "From the home screen it opens like any app, and the phone keeps it longer.",
        never: "From this address it would only be a bookmark. First see to the secure connection.",
        act: "Put it there",
        show: "Show how",
      },
      position: {
        name: "Position",
        good: "This phone gives its position to this app.",
        todo: "Speed, current and the place of a note need it. Let the phone be asked; it asks once. If you said no before, allow it in the browser’s settings for this address.",
        refused:
          "It was asked and said no. Allow the position in the browser’s settings for this address, then have the phone asked again.",
        never: "This phone gives no position here. Speeds can be typed, and notes are kept without a place.",
        act: "Ask the phone",
      },
      tables: {
        name: "Tables of tide and current",
        good: "Kept on this phone: tide, current and light without signal.",
        todo: "They come by themselves after the app, and are not here yet.",
        never: "This browser cannot keep them: tide and current are told only with the server in reach.",
        act: "Get them now",
      },
      wake: {
        name: "Screen can stay on",
        good: "This browser can keep the screen on.",
        todo: "",
        never: "This browser cannot. In the phone’s own settings, let the screen stay on longer.",
      },
      alarms: {
        name: "Alarms are heard",
        act: "Sound the alarm",
        heard: "I heard it",
        good: "Heard since the app was opened. A locked phone does not sound: keep the screen on.",
        todo: "Turn the phone’s volume up, silent mode off, and sound the alarm as it will be at sea. A locked phone does not sound: keep the screen on.",
        tried:
          "Did you hear it over the engine? If not: volume up, silent mode off, and sound it again on Lines, Instruments.",
        never: "",
      },
      rules: {
        name: "Rules of size and bag",
        good: "Those for the waters chosen were looked up within the year. Look again when a season begins.",
        todo: {
          good: "Look them up ashore, before you go.",
          nowhere: "Look them up ashore, before you go: no waters are chosen.",
          old: "Look them up ashore, before you go: a rule is out of date.",
        },
        never: "",
        act: "To the rules",
      },
    },
    megabytes: (number: string) => `${number} MB`,
    elsewhere: {
      address: "The address to open there",
      what: "This page is open inside another app. It cannot keep anything for sea: open it in the phone’s own browser.",
      how: "Copy the address, open Safari, and paste it; or use this app’s menu to open it there.",
      open: "Open it there",
      copy: "Copy the address",
      copied: "Copied",
    },
    install: {
      title: "Onto the home screen",
      which: "On which phone?",
      platforms: { ios: "iPhone, iPad", android: "Android", computer: "Computer" },
      steps: {
        ios: [
          "In Safari, tap the share sign: the square with an arrow up. It is in the bar at the lower or upper edge.",
          "Move the list up and tap “Add to Home Screen”.",
          "Tap “Add” at the upper edge.",
          "Close Safari, and open Wirewake from the home screen from now on.",
          "It begins as new: in the Locker, under Aboard, ask the skipper there.",
        ],
        android: [
          "Open the browser’s menu: three dots, at the upper or lower edge.",
          "Tap “Install app” or “Add to home screen”, and agree.",
          "Open Wirewake from the home screen from now on.",
        ],
        computer: [
          "At the right end of the address line, look for the sign that installs an app, or look in the browser’s menu.",
          "It also works without: the page opens with no network once it has been loaded.",
        ],
      },
      empty:
        "The app on the home screen starts empty: iPhone and iPad do not carry over what was noted in the browser.",
      nothingHere: "Nothing noted here is waiting, so nothing is left behind.",
      sendFirst: (n: number) =>
        `First let this phone send its notes: ${n} are waiting. They come back from the boat’s server.`,
      saveFirst: (n: number) =>
        `First save the ${n} entries noted here to a file, and load it in the app on the home screen.`,
    },
    try: {
      title: "Then try it",
      how: "Still at the dock: switch to flight mode, close the app, open it again. If the depths come up, it will work out there.",
    },
  },

  wayIn: {
    code: (url: string) => `QR code for ${url}`,
    scan: "Scan the code with each phone while you are at the dock. Then look at Ready for sea in the Locker.",
    insecure:
      "This address is plain http: phones can use the app while it is open, not keep it. What the server says at its start tells why, and what to do.",
    introduced: (url: string) =>
      `There each phone gets the certificate of this boat’s authority, once. After that the app is at ${url}.`,
    compare:
      "A phone can show details of the certificate before it is trusted. Its SHA-256 fingerprint must be:",
    here: "Use it here",
    others: "Other addresses",
    earlier: (url: string, keep: string) =>
      `Phones that loaded the app from ${url} keep their rigs there. To have that address back, ${keep}.`,
    door: {
      why: "One thing before you open the app. A boat has no name in the internet: your phone must be told once that this server is the boat’s. Then the app works with no signal.",
      after: "After that it goes on by itself: a name, the skipper’s yes, Ready for sea, the briefing.",
      firefox: {
        what: "This looks like Firefox, which does not trust certificates that you install. Better open this page in the phone’s other browser.",
        how: "To stay: Firefox, menu, Settings, About Firefox; tap its sign there five times, go back to Settings, Secret Settings, and switch on “Use third party CA certificates”.",
      },
      kind: "This is",
      kinds: { ios: "iPhone, iPad", android: "Android", computer: "A computer" },
      get: {
        ios: "Get the profile",
        android: "Get the certificate",
        computer: "Get the certificate",
      },
      steps: {
        ios: {
          get: "In Safari, get the profile and tap Allow. In another app, open this page in Safari first.",
          after: (name: string) => [
            "Open the phone’s Settings. Tap Profile Downloaded, near the top, then Install.",
            `Still in Settings: General, About, and at the very bottom Certificate Trust Settings. Switch on “${name}, the boat’s authority”.`,
          ],
        },
        android: {
          get: "Get the certificate. It lands in your downloads.",
          after: (_name: string) => [
            "Open the phone’s Settings, search for “CA certificate” and tap it. It is under Security, Encryption and credentials, Install a certificate.",
            "The phone warns you of any certificate; below is what this one can do. Tap Install anyway and pick the file from your downloads.",
          ],
        },
        computer: {
          get: "Get the certificate, and open it.",
          after: (_name: string) => [
            "Add it to the authorities that you trust for websites: in the system’s keychain or certificate store, or in the settings of Firefox.",
          ],
        },
      },
      compare:
        "The phone can show details of the certificate. Its SHA-256 fingerprint must be the one on the boat’s placard, or on the server’s screen. So should this be:",
      back: "Come back to this page. It goes on by itself as soon as your phone trusts the boat; if it does not, close the browser and scan once more.",
      look: "Look again",
      trusted: "This phone trusts the boat.",
      next: "Now it goes on in the app.",
      open: "Open Wirewake",
      bound: {
        title: "What you let in",
        what: (name: string) =>
          `The certificate vouches for ${name} and for addresses of private networks. It is made so that it can vouch for nothing in the internet: no bank, no mail.`,
      },
      remove: {
        title: "To take it out again",
        how: {
          ios: (name: string) =>
            `Settings, General, VPN & Device Management: “Wirewake on ${name}”, Remove Profile.`,
          android: (name: string) =>
            `Settings, search for “User credentials” or “Trusted credentials”: “${name}”, Remove.`,
          computer: (name: string) => `Delete “${name}” where you added it.`,
        },
      },
      rather: {
        title: "If you would rather not",
        what: "The app opens all the same after a warning of the browser, while the boat’s server is in reach. The phone cannot keep it: with no signal it will not open.",
        open: "Open it with a warning",
      },
    },
  },
};
