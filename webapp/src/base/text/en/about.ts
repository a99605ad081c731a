/** Words of what the app is, and the usual cautions. */

export const about = {
  about: {
    title: "About and sources",
    about: "What is computed, from what",
    languageLater:
      "The words of this language are not on this phone yet: open the app with signal. Las palabras en español aún no están en este teléfono: abra la app con señal.",
    knots: "Speeds are always in knots. Lines takes them through the water, not over the ground.",
    version: {
      title: "A newer version",
      look: "Look for a new version",
      looking: "Asking the boat’s server",
      none: "This is the newest that the boat’s server has.",
      unreachable: "The boat’s server is not in reach.",
      there: "A newer version is on this phone, and in use after a tap. Nothing that was noted is lost.",
      use: "Use it now",
    },
    sections: [
      {
        title: "What is computed",
        paragraphs: [
          "For each rod the shape of the line from lure to rod tip is solved from the balance of weight, drag and pull, piece by piece: leader, wire, backing, and the part in the air. Line out is measured from the tip.",
          "Everything is computed on this phone; no server is asked for it.",
        ],
      },
      {
        title: "What is sent where",
        paragraphs: [
          "This app speaks with one server, the boat’s, and loads itself from there. Nobody else is told anything: no advertising, no counting.",
          "A phone that is not aboard sends nothing that was noted or entered. One that asks to come aboard sends the name that was typed for it.",
          "A phone aboard sends what is noted: entries with time and, where the phone had one, position; photos without their hidden data; trips, ticks, lists, rules and the boat’s particulars if they were given to the crew; besides its name, and what it lacks to be ready for sea. The server gives that to the phones aboard: the skipper’s and mates’ have all of it, a guest’s that of one trip. It notes when each phone was last there.",
          "The boat’s server keeps all that on its disk, and sends it on to the owner’s server at home if it was set up for one.",
          "Rigs, what the lines were taught, settings, float plan and where you are now stay on this phone, but for what a note holds. A file, a float plan or words for the radio leave it when you hand them on.",
          "Reading aloud is done by the phone’s own voice; some phones fetch theirs from the network.",
        ],
      },
      {
        title: "The ±",
        paragraphs: [
          "It reaches from the 5th to the 95th of a hundred, with speed, line out, tip height, drag, friction, and the lure’s weight, drag and lift each known only so well: judgements from memory, until your own touches replace them. “How sure” in the Locker has them all, to be set.",
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
    cautions: [
      "Wire under load cuts to the bone. Never wrap it round a hand; wear gloves; keep fingers off a running spool and people out of the line of a loaded rod.",
      "A wire that has fouled the bottom is loaded by the whole boat. Ease the boat back over it; do not pull it free by hand.",
      "Keep a cutter that goes through wire where everybody can reach it.",
      "Heavy spoons swing with bare hooks. Look behind you before you lift one, and land fish with the boat under way only as the master says.",
      "A computed depth is an estimate. The bottom is not flat, the log is not exact, and the current below is not the one on top. Watch the sounder and the rod tips.",
      "This is no chart and no aid to navigation. Keep a proper lookout; one person steers.",
      "The master of the vessel decides, and local regulations on gear, seasons and fish come before anything shown here.",
    ],
  },
};
