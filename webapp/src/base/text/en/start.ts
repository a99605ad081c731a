/** Words of the first steps. */
export const start = {
  start: {
    title: "First steps",
    about: "What the numbers mean, and what to set first",
    numbers: "What the numbers mean",
    depth: "So deep the lure runs now, from the surface.",
    doubt: "Nine times in ten it is no farther off than this, up or down.",
    odds: "The chance that it rides as far off the bottom as you want it. The bar says the same: full and green is good, short and brown is not; below it stands what to do.",
    green:
      "A mark in the picture, from the side, stands for each rod; the dashed strip is where you want them.",
    settings: "Three settings make them this boat’s",
    rigs: "The wire and spoon on each reel",
    spoons: "Your spoons: length and weight",
    drails: "The drails and sinkers aboard",
    next: "Then teach it what you know",
    teach: "A setting that is known to tick, an angle, a pull: the ± narrows.",
    guest: "You are a guest on this trip",
    briefing: "Hear the briefing",
    guestWhat:
      "What you note here reaches the boat’s notes by itself. Ask the skipper before you change line or speed.",
    done: "Understood",
  },
};
