/** Words for the worst minutes. Short, in the order of doing; each with who says so. Numbers come in already written. */
import type { From } from "../../desk/types/current.gen";
import type { Advice } from "./fish";

/** What can happen, besides somebody overboard. */
export type HelpName = "alone" | "bleeding" | "hook" | "fire" | "cold" | "abandon";

interface HelpPage {
  title: string;
  steps: Advice[];
}

// What was read, and where; a step without one is common practice.
const list46 = "46 CFR 26.03-2, list for emergencies, by a copy of 2022";
const tasmania = "Marine and Safety Tasmania";
const newSouthWales = "Transport for New South Wales, Maritime";
const marineRescue = "Marine Rescue New South Wales";
const course = "a boating course of Vermont";
const imo = "IMO, MSC.1/Circ.1185/Rev.1, 2012";
const bleed = "Stop the Bleed, American College of Surgeons, by a copy";
const tccc = "TCCC guidelines, 2021";
const eye = "Healthwise, a fishhook in an eye, 2023";
const harvard = "Harvard Medical School";
const peace = "PeaceHealth, string-pull method";
const squadrons = "US Power Squadrons, The Ensign";
const coastGuard = "US Coast Guard, by the press";
const minnesota = "Minnesota DNR";
const canada = "a boating course of Canada";

export const help = {
  help: {
    title: "Emergencies",
    what: "overboard, bleeding, hook, fire, cold",
    defer:
      "The skipper and whoever is trained come first, and what the coast guard says by radio. No source named: common practice, no source.",
    source: (source: string) => `Source: ${source}`,
    radio: "Words for the radio",
    toRadio: "Radio",

    overboard: {
      title: "Overboard",
      none: "Nobody is overboard by the notes on this phone. The button at the top of every page notes it.",
      since: (time: string) => `${time} in the water`,
      at: (time: string, who: string) => `${time && `since ${time}, `}noted by ${who}`,
      steer: "Steer",
      true: "true",
      ahead: "ahead",
      port: (angle: string) => `${angle} to port`,
      starboard: (angle: string) => `${angle} to starboard`,
      astern: "astern",
      within: (radius: string) => `Look within ${radius} of there.`,
      drifted: (distance: string, from: Exclude<From, "neither">) =>
        `The current has carried them about ${distance}, ${
          {
            found: "as you found it",
            predicted: "by the tide tables alone: nobody measured it",
            both: "as you found it, weighed with the tide tables",
          }[from]
        }. That is allowed for.`,
      noDrift:
        "Where the current is not known, the circle grows with time. They drift with the current, as the boat does with the engine off.",
      marked: (bearing: string, distance: string) => `Place marked: ${bearing}, ${distance}.`,
      far: (distance: string) =>
        `Doubtful: a guest noted that place, ${distance} from here. The radio words leave it out. Ask before you go by it.`,
      shutOut:
        "Doubtful: a phone that was shut out noted that. The radio words leave its place out. Ask before you go by it.",
      doubtful: "doubtful",
      fixOld: (age: string) => `By a fix of ${age} ago: the boat has moved since.`,
      fixGood: (age: string) => `By a fix of ${age} ago.`,
      noFix: "No position on this phone: go back along the wake. The plotter may have one.",
      waiting: "This phone asks for its position.",
      refused: "This phone may not know its position: allow it in the browser, or go by the plotter.",
      asking: "Working it out.",
      picture: (words: string) => `Boat in the middle, likely place of the person with its circle. ${words}`,
      bowUp: "bow up",
      northUp: "north up",
      estimate: "An estimate from the first touch and the current as found or foretold. Eyes first.",
      toDo: "What to do",
      steps: [
        { what: "Shout “Overboard”, and the side.", source: coastGuard },
        { what: "Throw a ring, or whatever floats, as close as you can.", source: list46 },
        { what: "One person points at them and looks at nothing else.", source: list46 },
        {
          what: "Helm: into neutral at once, and swing the stern away from them.",
          source: tasmania,
        },
        {
          what: "Lines: leave them. One person with the cutter cuts what is in the way, at the rod. Nobody reels.",
        },
        { what: "Come back slowly, into wind and sea. Neutral well before.", source: tasmania },
        { what: "Engine off when they are alongside.", source: newSouthWales },
        { what: "Over the stern or the ladder; everyone else to the other side.", source: newSouthWales },
        { what: "Lying flat, if you can. If water goes over the face: the fastest way.", source: imo },
        { what: "Nobody goes in without a jacket on and a line to the boat.", source: list46 },
        {
          what: "Not back at once: Mayday, now. Search on until the coast guard has been asked.",
          source: list46,
        },
        { what: "Aboard again: lay them down. See Cold." },
      ] as Advice[],
      skipper: "It is the skipper who is in the water",
      over: "It is over",
      outcomes: {
        aboard: "Back aboard",
        "over to others": "Handed over: others have them, or search on",
        mistake: "It was a mistake",
      } as { [outcome: string]: string },
      endedBy: (who: string) => `ended by ${who}`,
      saidOver: (who: string, outcome: string) =>
        `${who} says: ${outcome}. Only the crew, or whoever noted it, ends it.`,
      proposed: (outcome: string) =>
        `The crew is told: ${outcome.toLowerCase()}. The crew, or whoever noted it, ends it.`,
      noPlace: "no position",
      ended: (outcome: string) => `Noted: ${outcome.toLowerCase()}.`,
      after:
        "If you called Mayday: tell the coast guard that it is over, on 16. A call that nobody ends keeps them searching.",
      pressed: (count: number) => `That phone has pressed it ${count} times. All of it counts as one.`,
      earlier: (count: number) => `${count} more, earlier.`,
      endAll: (count: number) => `All ${count} of that phone were a mistake`,
      endAllSure: (count: number) => `Yes, end all ${count}: none of them is real`,
      others: (count: number) => (count === 1 ? "1 more is overboard" : `${count} more are overboard`),
    },

    tourniquet: {
      note: "Tourniquet is on: note the time",
      noted: (time: string) => `Tourniquet on since ${time}. Write it on the tourniquet too.`,
      text: "Tourniquet put on",
    },

    pages: {
      alone: {
        title: "The skipper is in the water",
        steps: [
          { what: "You can do this. Shout so that the skipper hears: we see you." },
          {
            what: "One person points at the skipper and does nothing else. Throw what floats.",
            source: list46,
          },
          { what: "If the engine still runs: lever into the middle. That is neutral." },
          { what: "Radio: channel 16, press, read the words below, let go, listen. Do it now, not later." },
          {
            what: "If the cut-off stopped the engine: put its clip back, or the spare one. Lever in the middle, turn the key.",
          },
          { what: "Lines: cut them at the rod, if they are in the way. Gloves." },
          {
            what: "Turn slowly. Walking pace. Steer to pass close by, bow into wind and sea.",
            source: tasmania,
          },
          {
            what: "Lever in the middle a boat’s length before. Engine off when the skipper is alongside.",
            source: newSouthWales,
          },
          { what: "Ladder or stern. Do not go in.", source: minnesota },
          { what: "You lose sight of the skipper: stop, stay there, say so on the radio." },
        ],
      },
      bleeding: {
        title: "Bleeding that will not stop",
        steps: [
          {
            what: "Gloves if at hand. Find where it comes from. Press hard, with both hands, on the spot.",
            source: bleed,
          },
          {
            what: "Deep: pack it with gauze or clean cloth, and go on pressing. Do not lift it to look.",
            source: bleed,
          },
          {
            what: "Arm or leg, and it spurts, soaks or goes on: tourniquet, two to three inches (5 to 8 cm) nearer the body than the wound, not on a joint.",
            source: bleed,
          },
          {
            what: "You cannot see where it comes from: high on the limb, and tight, over the clothes.",
            source: tccc,
          },
          {
            what: "Twist until it stops. It hurts. Fasten it. It goes on: a second one beside it.",
            source: tccc,
          },
          { what: "Note the time. Never loosen it: a doctor does.", source: bleed },
          { what: "Neck, armpit, groin: pack and press, no tourniquet.", source: tccc },
          { what: "Mayday. Lay them down, keep them warm, keep pressing." },
          { what: "Wire cut to the bone: the same. The wire is cut free, never pulled through." },
        ],
      },
      hook: {
        title: "A hook in a person",
        steps: [
          { what: "Hold still. The fish off first. Cut the line." },
          { what: "Cut off or tape the other points.", source: peace },
          {
            what: "Eye, lid or close by: leave it in. Do not press. A paper cup over it; cover the other eye too, so that both keep still. Radio for a doctor.",
            source: eye,
          },
          { what: "Face: leave it in. A doctor takes it out.", source: harvard },
          {
            what: "Deep, in a joint, or numb or white beyond it: leave it in, pad it so that it cannot move, go to a doctor.",
          },
          {
            what: "Shallow, barb under the skin, and no doctor within reach: loop strong line round the bend, close to the skin.",
            source: harvard,
          },
          {
            what: "Press the shank down to the skin. All others out of the way of the hook.",
            source: harvard,
          },
          { what: "Jerk the line sharply, in line with the shank. Once.", source: harvard },
          { what: "It does not come, or it hurts too much: leave it in.", source: peace },
          {
            what: "Rinse, wash with soap, cover. A doctor looks at it, and at the tetanus shot.",
            source: harvard,
          },
        ],
      },
      fire: {
        title: "Fire",
        steps: [
          { what: "Shout. Everyone away from it, jackets on.", source: course },
          {
            what: "Turn so that the wind blows the fire off the boat: fire aft, bow into the wind; fire forward, stern into it. Then stop.",
            source: course,
          },
          { what: "Fuel off at the tank or bulb; engine off; gas off.", source: marineRescue },
          { what: "Shut its air off: hatches, ports, lids.", source: list46 },
          { what: "Engine box: do not lift the lid. Spray through a gap." },
          {
            what: "Extinguisher: pull the pin, aim at the base of the flames, sweep. It lasts seconds.",
            source: course,
          },
          { what: "Water only on wood, cloth and paper; never on fuel, oil or wires.", source: course },
          { what: "Mayday as soon as it is not out with the first one.", source: marineRescue },
          { what: "It is not to be held: leave, on the side the wind comes from.", source: marineRescue },
          { what: "Out: watch it closely. The fuel stays off.", source: marineRescue },
        ],
      },
      cold: {
        title: "Cold, after the water",
        steps: [
          {
            what: "Not breathing: clear the airway, two breaths, then 30 presses and two breaths, 100 presses a minute, as trained. Go on until a doctor says otherwise, or you cannot.",
            source: imo,
          },
          {
            what: "Breathing, not awake: on the side, airway open, out of the wind. Watch the breath.",
            source: imo,
          },
          { what: "Handle gently, keep them lying flat. No walking, no rubbing.", source: canada },
          {
            what: "Out of the wind. Wet things off if dry ones are there, else wrap over all; something waterproof outside.",
            source: imo,
          },
          {
            what: "Shivering and talking sense: warm sweet drinks, blankets. No alcohol.",
            source: minnesota,
          },
          { what: "Stopped shivering, slow or confused: grave. Mayday, and nothing to drink." },
          { what: "Ask a doctor by radio in any case, even if they seem well.", source: imo },
          {
            what: "Still in the water: legs together, elbows at the sides, arms across the chest, keep still. Swim only to what is near.",
            source: imo,
          },
        ],
      },
      abandon: {
        title: "Leaving the boat",
        steps: [
          { what: "Stay with the boat as long as it floats: it is seen, a head is not.", source: squadrons },
          { what: "Jackets on everyone, warm clothes under them, in any water.", source: imo },
          { what: "Mayday with the position and how many you are. Leave the radio on, take the handheld." },
          { what: "Beacon on. Flares: when somebody can see them." },
          { what: "Take: radio, beacon, flares, light, whistle, knife, water, phones in a bag." },
          { what: "Count heads. One person says the count aloud." },
          {
            what: "Into raft or other boat dry, if you can. Else into the water slowly, not by a jump.",
            source: imo,
          },
          { what: "Fire: off on the side the wind comes from.", source: marineRescue },
          {
            what: "Hold on to the boat, or to what floats; out of the water as far as you can; together.",
            source: squadrons,
          },
          { what: "Never swim away from it, unless it drifts onto a danger.", source: squadrons },
        ],
      },
    } as { [N in HelpName]: HelpPage },
  },
};
