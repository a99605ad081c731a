/** Palabras del giro. Los números llegan ya escritos, con sus unidades. */
import type { turn as en } from "../en/turn";

export const turn: typeof en = {
  turn: {
    title: "En un giro",
    ask: "En un giro",
    what: (speed) =>
      `Un giro parejo a ${speed}, con las líneas como están en Líneas. El señuelo de adentro va más despacio, el de afuera más rápido; lo que eso hace a su profundidad está junto a cada caña.`,
    side: "Girar a",
    sides: { port: "Babor", starboard: "Estribor" },
    tightness: "Qué tan cerrado es el giro",
    straight: "Derecho",
    tight: (quarter, radius, whole) => `90° en ${quarter}: radio ${radius}, vuelta entera ${whole}`,
    above: "desde arriba",
    beside: (bottom) => `de perfil, ${bottom}`,
    aboveWords: (side) => `Las líneas desde arriba, en un giro a ${side.toLowerCase()}.`,
    besideWords: "Las líneas de perfil, en el giro.",
    between: (low, high) => `Nueve de cada diez veces entre ${low} y ${high}`,
    asStraight: "como en rumbo recto",
    sinks: (by) => `${by} más hondo`,
    rises: (by) => `${by} más arriba`,
    collapsed: "La línea se desploma: se hunde en un montón. Gire más abierto.",
    closest: (pair, distance, depth) =>
      `Lo más cerca entre sí: ${pair}, a ${distance}, a ${depth} de profundidad.`,
    tightest: "¿Qué tan cerrado puede ser?",
    notTighter: (quarter, radius, why) =>
      `90° en no menos de ${quarter}, radio ${radius}. Más cerrado, ${why}.`,
    neverTight: (why) => `Ninguno: ya en rumbo recto, ${why}.`,
    anyTurn: "Tan cerrado como gire esta embarcación.",
    bounds: {
      none: () => "",
      bottom: (rod, part) => `${part} de ${rod} se acerca demasiado al fondo`,
      lines: () => "dos líneas se acercan demasiado entre sí",
      air: (rod) => `un plomo o el señuelo de ${rod} sale del agua`,
      collapse: (rod) => `la línea de ${rod} se desploma`,
    },
    lookAtIt: "Ver ese giro",
    inTime: "En el tiempo",
    playTurn: "Un giro de 90°",
    playStop: "La embarcación se detiene",
    time: "Tiempo",
    play: "Reproducir",
    halt: "Detener",
    filmWords: "Las líneas en este momento.",
    deepest: (depth, time) => `lo más hondo ${depth}, después de ${time}.`,
    settled: (time) => `Estable después de ${time}.`,
    notSettled: "Aún no estable al final.",
    down: (time, part) => `${part} está en el fondo después de ${time}.`,
    mayBeDown: (time) => `Puede tocar después de ${time}.`,
    doNotStop: "No se detenga sobre este fondo con líneas fuera.",
    notFollowed: "no se puede seguir: haga el giro más abierto.",
    physics:
      "Para agua quieta, o una corriente igual a toda profundidad. La sombra de una línea es donde va nueve veces de diez. Qué toca, y qué tan cerrado puede ser, va por las probabilidades: en un giro el doble de lo que usted acepta en rumbo recto, pues es corto y se ve venir (un juicio). Una picada en la caña de adentro durante un giro dice que las líneas van muy arriba (práctica común, sin fuente). Mire la sonda; nunca gire mientras sale alambre.",
  },
};
