/** What comes with the app: the pages of the briefing, and the checklists to begin with. Their words are in the text. */
import type { CheckName, ListName, PageName } from "../../base/text/en/crew";

/** Read in this order. */
export const pages = [
  "master",
  "wire",
  "hooks",
  "place",
  "helm",
  "lineOut",
  "leash",
  "jacket",
  "cutoff",
  "radio",
  "overboard",
  "hooked",
  "cold",
  "sun",
] as const satisfies readonly PageName[];

/** Checks by the list they stand on. A check has one word in all lists and logs, whatever the language. */
export const firstChecks = {
  leaving: [
    "weather",
    "rules",
    "plug",
    "bilge",
    "fuel",
    "jackets",
    "throwable",
    "extinguisher",
    "flares",
    "horn",
    "lights",
    "anchor",
    "radio",
    "cutoff",
    "cutter",
    "firstAid",
    "briefed",
    "plan",
    "ready",
  ],
  out: ["clearAhead", "straight", "gloves", "leashed", "swims", "braked", "marks"],
  in: ["steadyIn", "oneAtATime", "laidEven", "standClear", "guarded", "wireSeen"],
  turn: ["room", "noneMoving", "depthThere", "tellAll", "wide"],
  dock: ["called", "iced", "rinsed", "kinks", "needed", "switches", "sent", "closed"],
} as const satisfies { [L in ListName]?: readonly CheckName[] };
