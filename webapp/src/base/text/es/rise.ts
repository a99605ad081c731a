/** Palabras de lo que la sonda ya leyó y los señuelos aún no alcanzan. Los números llegan ya escritos. */
import type { rise as en } from "../en/rise";

export const rise: typeof en = {
  rise: {
    title: "Profundidad ahora",
    sounder: "Sonda",
    link: (depth, age) => `Sonda: ${depth}, hace ${age}`,
    linkNone: "¿Bajo adelante?",
    now: "Profundidad ahora",
    what: "Ajuste o escriba lo que marca la sonda cada vez que cambia. Los señuelos llegan allí más tarde, y Líneas avisa antes de que uno esté sobre una subida del fondo.",
    still: (depth) => `Sigue en ${depth}`,
    ago: (age) => `hace ${age}`,
    read: (depth, age) => `${depth}, ${age}`,
    history: "Leído hasta ahora",
    forget: "Olvidar estas",
    forgotten: "Se olvidaron las lecturas.",
    setBottom: (depth, set) => `Poner Fondo de Líneas en ${depth} (ahora ${set})`,
    bottomSet: (depth) => `Fondo de Líneas está en ${depth}.`,
    behind: (depth, set) => `Sondado ${depth}; Fondo ${set}`,
    behindWhole: (depth, set) =>
      `Todos los señuelos llegaron a donde se leyó ${depth} por última vez, y Líneas sigue con Fondo en ${set}.`,
    setTo: (depth) => `Poner ${depth}`,
    leaveIt: (set) => `Dejar ${set}`,
    byPace: (speed) => `Calculado con ${speed} sobre el fondo, de Ritmo.`,
    byLines: (speed) => `Ritmo no tiene velocidad: calculado con los ${speed} de Líneas sobre el fondo.`,
    how: "En rumbo recto; entre dos lecturas el fondo se toma como recto.",
    coming: (seconds, verdict) => `${seconds ? `aquí en ${seconds}\u00a0s` : "aquí ahora"}; ${verdict}`,
    verdicts: {
      "stays clear": "pasa libre",
      "comes close": "puede tocar en el camino",
      touches: "toca en el camino",
      "not sounded": "sin lecturas delante de él",
    },
    ahead: (depth, rod, touches, seconds) =>
      `Bajo adelante, ${depth}: caña\u00a0${rod} ${touches ? "toca" : "pasa cerca"} ${seconds ? `en ${seconds}\u00a0s` : "ahora"}.`,
    also: (rods) =>
      rods.length === 1
        ? `La caña\u00a0${rods[0]} también toca.`
        : `Las cañas ${rods.join(", ")} también tocan.`,
    speed: (speed) => `Suba a ${speed}.`,
    lineOf: (lineIn, rod, first) => `${lineIn} en la ${first ? "caña\u00a0" : ""}${rod}`,
    whole: (rods) =>
      rods.length === 1
        ? `Caña\u00a0${rods[0]}: recójala entera, o desvíese.`
        : `Cañas ${rods.join(", ")}: recójalas enteras, o desvíese.`,
    ready: "Esté listo para recoger.",
    asEach: (or) => `${or ? "O recoja" : "Recoja"} lo que dice cada caña.`,
    takeIn: (lines, or) => `${or ? "O recoja" : "Recoja"} ${lines.join(", ")}.`,
  },
};
