/** Words of the Fish place. Numbers come in already written, with their units. */

import type { Verdict as Kept, Stir } from "../../desk/types/chill.gen";
import type { Old, Verdict, Why } from "../../desk/types/fish.gen";
import { ice } from "./ice";
import { rules } from "./rules";

/** Something to do, and who says so; without a source it is common practice. */
export interface Advice {
  what: string;
  source?: string;
}

const practice = "common practice, no source";

const newYork = "New York State DEC, best practices";

export const fish = {
  fish: {
    deck: "A fish is coming",
    practice: `Where no source is named: ${practice}.`,
    source: (source: string) => `Source: ${source}`,
    locked:
      "Times go on with the phone locked or the app closed. A sound cannot come from a locked phone: look here. They go by the phone’s clock.",
    left: (count: number) =>
      count === 1
        ? "A fish of long ago is no longer in hand."
        : `${count} fish of long ago are no longer in hand.`,
    inHand: "In hand",
    noneInHand: "No fish in hand. When one comes up, tap Fish up: each step from gaff to ice comes here.",
    goOn: (what: string) => `Go on: ${what}`,
    steps: {
      land: "Land it",
      measure: "Measure it",
      judge: "May we keep it?",
      bleed: "Bleed it",
      slush: "Into the slush",
      release: "Let it go",
    },
    next: "Next",
    done: "Done",
    someFish: "A fish",
    oneFish: (species: string, length: string) => [length, species].filter(Boolean).join(" "),
    whose: (what: string, person: string) => (person ? `${what}, ${person}` : what),
    elsewhere: (who: string, what: string) => `${who} has landed one: ${what}. Is it the same fish?`,
    another: "No, another",

    land: {
      drawing: "A fish on a straight line beside the boat, a net held under its head, everyone else clear",
      advice: [
        { what: "Reel steadily: no pumping, no slack." },
        { what: "One nets, head first. All others stand clear." },
        { what: "Gloves. No turn of wire round a hand." },
        { what: "Mind the second hook and the spoon: pliers, not fingers." },
        { what: "A net of rubber or without knots", source: newYork },
      ] as Advice[],
      helm: {
        unknown: "Helm: straight on, slowly: the other lines must not come to lie on the bottom.",
        unset:
          "Nobody has set depth and lines on this phone. The phone on which they are set says how slow it may be.",
        free: "Helm: dead slow ahead, straight on. No other line comes to the bottom.",
        freeBut: (rods: string) =>
          `Helm: dead slow ahead, straight on. By the notes a fish is on ${rods} too: if it came off, that line may come to the bottom. No other does.`,
        notSlower: (speed: string, rod: string, order: string) =>
          `Helm: straight on, not slower than ${speed} through the water, or ${rod} lies on the bottom. To go slower take in first: ${order}.`,
        already: (rod: string, order: string) =>
          `Helm: straight on, no slower than now: ${rod} may lie on the bottom already. Take it in first${order && `, then ${order}`}.`,
      },
      gotOff: "It got off",
      mistake: "No fish",
      gone: "Noted: got off.",
      whichRod: "Several are hooked. Which one is this?",
      hookup: (rod: string | undefined, time: string, who: string) =>
        [rod ?? "Rod not told", time, who].filter(Boolean).join(", "),
      since: (time: string) => `${time} since it came up`,
    },

    measure: {
      drawing:
        "A fish flat on a ruler: mouth closed at the end board, both lobes of the tail squeezed together, measured in a straight line",
      advice: ["Mouth closed", "Tail squeezed", "Straight line, not over the belly"],
      source: "Total length: 50 CFR 600.10; Atlantic States Marine Fisheries Commission, Addendum III",
      length: "Total length",
      none: "not yet",
      species: "Kind",
      out: "Out of the water now",
      outFor: (time: string) => `Out of the water for ${time}`,
      back: "Back in the water",
      outWhy: "Wet hands, wet board. Or measure it in the net, in the water.",
      letGo: "Let it go",
      first: "Give the length first: − and +, or tap the number.",
    },

    judge: {
      waters: "In which waters are you?",
      whose: "Whose fish is it?",
      whoseWhy: "Whoever caught it. In many places a fish cannot go into another’s bag: ask.",
      me: "Me",
      unnamed: "Not named",
      verdicts: {
        keep: "May be kept",
        release: "Let it go",
        unknown: "No rule: let it go",
        "look it up": "Look it up today",
        "how many fish": "How many people fish?",
      } as { [V in Verdict]: string },
      byOldRule: (verdict: string) => `That old rule said: ${verdict.toLowerCase()}.`,
      statesOwn: "This is the plan for the whole coast. Your state sets its own rules, and they come first.",
      unknownWhy: (species: string, waters: string) =>
        `There is no rule here for ${species} in these waters: ${waters}. Without one it goes back, or the master decides.`,
      master: "The master says: keep",
      reasons: {
        "no rule": () => "No rule for it here.",
        "not to be fished for": () => "It must not even be fished for here.",
        "out of season": (_limit, _by, opens) => `Out of season. It opens ${opens}.`,
        "too short": (limit, by, _opens, included) =>
          by
            ? `Too short by ${by}: ${included ? `from ${limit}` : `more than ${limit}`}.`
            : `Too short: just ${limit} goes back too.`,
        "too long": (limit, by, _opens, included) =>
          by
            ? `Too long by ${by}: ${included ? `up to ${limit}` : `less than ${limit}`}.`
            : `Too long: it must be less than ${limit}, and just ${limit} goes back too.`,
        "none may be kept": () => "None may be kept.",
        "bag of the person full": () => "The bag is full.",
        "bag of the boat full": () => "The boat’s bag is full.",
      } as { [W in Why]: (limit: string, by: string, opens: string, included: boolean) => string },
      close: (about: string) => `So near to a limit that a ruler decides (±\u202f${about}). Measure again.`,
      again: "Measure again",
      keep: "Keep it",
      letGo: "Let it go",
      more: (count: number) => (count < 0 ? "no limit" : count === 0 ? "last one" : `${count} more after it`),
      full: "bag full",
      kept: (what: string) => `Kept: ${what}.`,
      released: (what: string) => `Let go: ${what}.`,
      today: (day: string) => `Judged for ${day}, by this phone’s clock.`,
    },

    aged: {
      whys: {
        "date not readable": (date) => `“${date}” is no date this app can read: look it up today`,
        "not in force yet": (date) => `In force only from ${date}: look it up today`,
        "past its date": (date) => `In force until ${date}: look it up today`,
        "not checked for a year": (date) => `Checked ${date}: look it up today`,
        "never checked": () => "Never checked: look it up today",
      } as { [O in Old]: (date: string) => string },
      how: "Rules change within a year. Look it up with the state’s agency, in its booklet or by radio from ashore, before you go by it.",
      holds: "I looked: it still holds",
      changed: "It has changed",
      held: "Noted: looked up today.",
    },

    share: {
      save: "Save this set to a file",
      load: "Load a set from a file",
      loaded: (names: string) => `Loaded, and used now: ${names}.`,
      notRules: "This file holds no rules. Choose one that was saved here as a set of rules.",
      later: "This file is of a later version of the app. Update the app, and load it again.",
      broken: "Something in this file cannot be read, and nothing of it was taken. Have it saved once more.",
      give: "Give it to the crew",
      given: "The crew has it",
      offered: "From the crew",
      take: (name: string) => `Take: ${name}`,
      taken: (name: string) => `Taken, and used now: ${name}.`,
    },

    howMany: {
      title: "How many people fish today?",
      now: (count: number) => (count === 1 ? "1 person fishes today" : `${count} people fish today`),
      unsaid: "say how many people fish",
      why: "Each of them has a bag. Names are better: with them it is told whose bag is full.",
    },

    bag: {
      title: "The bag today",
      row: (kept: number) => (kept === 1 ? "1 kept" : `${kept} kept`),
      more: (count: number) => (count < 0 ? "no limit" : count === 1 ? "1 more" : `${count} more`),
      boat: (kept: number, more: string) => `All aboard together: ${kept} kept, ${more}`,
      stop: (person: string) => (person ? `Stop: ${person}’s bag is full` : "Stop: the bag is full"),
      stopBoat: "Stop: the boat’s bag is full",
      stopShort: (species: string) => `Stop: ${species}`,
      stopWhat: (species: string) => `Every ${species} from here on goes back.`,
      stopTheirs: (species: string) => `Their next ${species} goes back.`,
      closed: (species: string) => `No ${species} may be kept now`,
      known: "It counts what this phone knows. What others keep counts once their notes are here.",
      forgotten: (what: string) => `Taken off the list: ${what}.`,
    },

    bleed: {
      drawing: "The head of a fish: the cut runs behind the gills, down through the throat",
      advice: [
        { what: "A hard blow on the head first, then bleed at once.", source: "Nofima" },
        {
          what: "Cut the gills, or a main artery in the throat, deep enough that it runs.",
          source: "FAO, x2590e10",
        },
        {
          what: "Not later than 30 minutes after death. After 3 hours it is as if not bled.",
          source: "Olsen and others 2014, on cod",
        },
        {
          what: "Knife: fish lies on the board, glove on the hand that holds, cut away from it. Then sheathe it.",
        },
      ] as Advice[],
      cut: "Cut made",
      bleeding: (time: string) => `Bleeding for ${time}`,
      howLong:
        "It may bleed in the slush: in water or in air makes little difference (Nofima). Leave it 30 minutes before you gut it (Olsen and others 2014, on cod).",
      gut: (time: string) => `Gut it in ${time} at the soonest`,
      gutNow: "It may be gutted now",
    },

    slush: {
      drawing: "A box with slush: the fish lies covered from head to tail, the lid is shut",
      advice: [
        { what: "Slush: as much sea water as ice, stirred, over the whole fish.", source: "UF/IFAS" },
        { what: "Stir now and then; the lid shut, in the shade." },
        {
          what: "Slush chills, ice stores: once cold, drain it and pack it in ice.",
          source: "UC Davis seafood list, posts",
        },
        { what: "A gutted or cleaned fish does not go back into the brine.", source: "UF/IFAS" },
      ] as Advice[],
      inNow: "In the slush now",
      inFor: (time: string) => `In the slush for ${time}`,
      cold: (temperature: string, time: string, low: string, high: string) =>
        `Thickest part at ${temperature} about ${time} after it goes in (${low} to ${high}).`,
      coldIn: (time: string) => `Very likely there in another ${time}.`,
      coldNow: "Very likely there now.",
      never: (temperature: string) => `The thickest part never gets to ${temperature} in this slush.`,
      limits: {
        "in ice": (within: string, verdict: Kept) =>
          `In ice within ${within} of death: ${keptWords[verdict]}`,
        chilled: (within: string, verdict: Kept) => `Cold within ${within} of death: ${keptWords[verdict]}`,
      },
      estimate:
        "An estimate: how well slush takes heat is judged from published tanks, the girth is a middle fish’s, and a fish is no endless bar. A thermometer in the thickest part knows better.",
      stricter:
        "The limits are for fish that form histamine, which striped bass does not, and for the ice or water around them. Held against the thickest part, as here, they ask more.",
      bath: "Slush",
      warmth: "Fish when it goes in",
      stir: "How it lies",
      stirs: {
        "packed in ice": "Packed in ice",
        "still slush": "Slush at rest",
        "stirred slush": "Stirred slush",
      } as { [S in Stir]: string },
      byPlan: "as the ice plan has it",
      asSea: "as the sea",
      curve: (words: string) => `How the thickest part cools. ${words}`,
      now: "now",
      off: "Take it off the list",
      reset: "Not in yet: set the time back",
    },

    release: {
      drawing:
        "A fish held level in the water, one hand under the belly, one round the tail, head into the current",
      advice: [
        { what: "In the water: unhook it there.", source: newYork },
        { what: "Wet hands first.", source: newYork },
        { what: "Level, held with both hands.", source: newYork },
        { what: "No fingers in gills or eyes.", source: newYork },
        { what: "Hook deep inside: cut the leader close to it.", source: newYork },
        { what: "Head into the current until it swims off by itself.", source: newYork },
      ] as Advice[],
      minutes:
        "Every minute counts: fight, air and handling decide with the water’s warmth (Dinkelacker and others 2025). No limit in air is published for striped bass; the shortest tried was 30 s.",
      warm: (now: string, limit: string) =>
        `Warm water: ${now}. From about ${limit} many let go die all the same. Do not lift it out; consider to stop fishing for them.`,
      warmSource: (warm: string, low: string, high: string) =>
        `On lures, above ${warm}: 70 % died in fresh water, 39 % in slightly salt water, 2 % at 8 ppt (RMC 1990, by Maryland DNR). From ${low} to ${high}: 6 % (Nelson 1998).`,
      cool: (now: string, heard: boolean) =>
        `Water ${heard ? "by the instruments" : "as the Locker has it"}: ${now}.`,
      gone: "It swam off",
    },

    rules,

    ice,

    weight: {
      title: "Weight by length",
      short: "Weight",
      know: "I know",
      byLength: "the length",
      byMass: "the weight",
      length: "Total length",
      mass: "Weight",
      girth: "Girth, thickest part",
      none: "not taken",
      range: (low: string, high: string) => `${low} to ${high} nine times in ten`,
      standard: (mass: string) =>
        `A fish in good condition of that length: ${mass} (three in four are lighter).`,
      byGirth: (mass: string) =>
        `Length × girth² ÷ 800, the trade’s formula, gives ${mass}. ${cap(practice)}; it takes the length to the fork of the tail, here 0.93 of the total length (from memory).`,
      judged:
        "For striped bass only. Brown and Murphy 1991, 75th percentile, total length. Fish of one length spread by 12 % about the middle (from memory).",
    },

    keeping: {
      title: "How it keeps",
      short: "Keeping",
      of: (fish: string, source: string) => `${fish} (${source})`,
      what: "What the day’s temperatures have done to a fish. Between two of them it is taken to change evenly.",
      at: "Time since death",
      temperature: "Its temperature",
      step: (number: number) => `${number}.`,
      add: "Another temperature",
      remove: (number: number) => `Remove ${number}`,
      spent: (time: string, low: string, high: string, zero: string) =>
        `Used up: as much as ${time} at ${zero} (${low} to ${high})`,
      rate: (times: string, zero: string) =>
        `At the last temperature it spoils ${times} times as fast as at ${zero}.`,
      left: (low: string, high: string) => (low === high ? low : `${low} to ${high} left`),
      gone: "nothing left",
      yardstick:
        "No figure for striped bass was found. Cod and salmon are yardsticks only. Smell and look decide; in doubt throw it out.",
      beyond: (low: string, high: string) => `Outside ${low} to ${high}, for which the formula was made.`,
      source: "Spoiling at (1 + 0.1 T)² beside 0 °C: FAO Fisheries Technical Paper 348.",
    },

    time: {
      days: (days: string) => `${days} days`,
      hours: (hours: string, minutes: string) =>
        minutes === "0" ? `${hours}\u00a0h` : `${hours}\u00a0h ${minutes}\u00a0min`,
      minutes: (minutes: string) => `${minutes}\u00a0min`,
      seconds: (seconds: string) => `${seconds}\u00a0s`,
    },
  },
};

const keptWords: { [V in Kept]: string } = { kept: "likely", perhaps: "perhaps", missed: "missed" };

function cap(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
