/** Palabras de lo que enseñan los toques, del plan de las líneas y del bajo adelante. Los números llegan ya escritos, con sus unidades. */
import type { learn as en } from "../en/learn";

export const learn: typeof en = {
  learn: {
    title: "Lo que dicen los toques",
    link: (used, odd) =>
      `${used === 0 ? "Toques: ninguno aún" : used === 1 ? "1 toque cuenta" : `${used} toques cuentan`}${
        odd > 0 ? (odd === 1 ? ", 1 contradice" : `, ${odd} contradicen`) : ""
      }`,
    howSure: "Qué tan seguro",
    none: "Aún no se aprendió nada. Cuando un señuelo apenas toque el fondo en una profundidad que pueda leer en la sonda, anótelo: tres o cuatro toques achican el ±.",
    used: (count) =>
      count === 1 ? "1 toque cuenta en cada profundidad." : `${count} toques cuentan en cada profundidad.`,
    setAside: "Las profundidades se dan como se calculan antes de todo toque.",
    before: "Antes de todo toque",
    after: (used) => (used === 1 ? "Después de 1 toque" : `Después de ${used} toques`),
    bottomAt: (depth) => `Línea cortada: el fondo a ${depth}.`,
    clear: "Pasó libre",
    clearWhat: "Solo si está seguro de que aquí no tocó nada. Sirve más donde casi tocó.",
    at: (lineOut, bottom) => `${lineOut} fuera en ${bottom}`,
    verdicts: {
      agrees: "Coincide con los demás",
      "cannot be computed": "Con él no se puede calcular: no cuenta",
      untold: "No dice cómo estaba armada la caña, o desde entonces nombra otra caña: no cuenta",
      uncounted: "Sin contar",
      deeper: (off) => `Según este, la línea iba ${off} más hondo de lo que dicen todos los demás.`,
      shallower: (off) => `Según este, la línea iba ${off} menos hondo de lo que dicen todos los demás.`,
      shouldHaveTouched: (off) => `Según todos los demás, la línea iba ${off} más hondo que el agua de aquí.`,
    },
    contradicts: "Este contradice a los demás.",
    contradicting: (touch) => `Un toque contradice a los demás: ${touch}.`,
    contradictsWhy:
      "Puede ser una caña, una profundidad o un largo equivocados, algas o una loma. Cuenta menos; táchelo si está mal.",
    strike: "Tacharlo",
    look: "Ver",
    lineDrag: (mid, low, high) => `Esta línea frena ${mid} veces lo calculado (de ${low} a ${high}).`,
    next: "Qué diría más",
    tryIt: (rod, lineOut, drail, now, then) =>
      `${rod}: deje que apenas toque con unos ${lineOut} fuera ${drail ? `y plomo de ${drail}` : "y sin plomo"}. ${
        now
          ? `Eso llevaría el ± de todas las cañas de ${now} a ${then}.`
          : `El ± de todas las cañas quedaría cerca de ${then}.`
      }`,
    nextHow: (bottom) =>
      `En ${bottom} de agua, solo sobre fondo limpio: largue línea poco a poco hasta que apenas toque, anote el toque, recoja línea. A un alambre enganchado lo tira toda la embarcación.`,
    depths: "Profundidades en Líneas",
    withTouches: "Con lo que dicen los toques",
    withoutTouches: "Como se calculan antes de todo toque",
    all: "Todos",
    how: "Un toque se anota con la línea, el plomo, la velocidad y la profundidad del agua como están en Líneas; póngalos primero. Los toques de todos los teléfonos y salidas que hay en este teléfono cuentan juntos, los más viejos un poco menos. Lo aprendido de un alambre o señuelo vale para todos los de su nombre, y la mitad para los otros.",
  },

  plan: {
    title: "Plan de las líneas",
    what: (speed, bottom, low, high) =>
      `A ${speed} en ${bottom} de agua, buscado de ${low} a ${high} del fondo.`,
    people: "Personas a bordo",
    peopleFrom: {
      trip: "según lo anotado en esta salida",
      rods: "las que bastan para todas las cañas",
      own: "como se fijó aquí",
    },
    drails: "Plomos a bordo",
    drailsWhat: "Cuántos de cada uno. El plan no usa más que estos.",
    noDrails: "ninguno",
    times: (count, weight) => `${count}\u00a0×\u00a0${weight}`,
    rides: (depth, off, astern) => `Va a ${depth}, ${off}, ${astern} por la popa.`,
    reasons: {
      middle: "Apunta a la mitad de la banda",
      deeper: (by) => `Apunta ${by} por debajo de la mitad de la banda, para ir aparte`,
      higher: (by) => `Apunta ${by} por encima de la mitad de la banda, para ir aparte`,
      farthest: "la que va más lejos por la popa",
      ahead: (distance, rod) => `${distance} por delante del señuelo de la caña\u00a0${rod}`,
      beside: "Va al lado de otro señuelo: nada de a bordo los aparta más.",
      stays: (tended) =>
        `Queda a bordo: una persona lleva el timón, y cada una de las demás atiende ${tended} cañas (práctica común, sin fuente).`,
      speed: (speed) => `A ${speed} llegaría.`,
      alone: (why) => `Nada que proponer: ${why}.`,
    },
    missing: (drails) => `Mejor con plomos que no están a bordo: ${drails.join(", ")}.`,
    closest: (a, b, distance, astern) =>
      `Lo más cerca entre sí: ${a} y ${b}, a ${distance}, ${astern} por la popa, en rumbo recto. En un giro las líneas se acercan más.`,
    turnHolds: (quarter) =>
      `En un giro de 90° en ${quarter}, a cualquier banda, todos los señuelos quedan libres del fondo y las líneas separadas.`,
    raised: "Para eso, todos van en la parte alta de la franja.",
    spaced: "Para eso, van más separados por la popa.",
    turnBreaks: (quarter, side, why) =>
      `No para un giro de 90° en ${quarter}: a ${side.toLowerCase()}, ${why}. Gire más abierto.`,
    breaks: {
      none: () => "",
      bottom: (rod) => `el señuelo de ${rod} se acerca demasiado al fondo`,
      lines: (rod, other) => `las líneas de ${rod} y ${other} se acercan demasiado`,
      collapse: (rod) => `la línea de ${rod} se desploma`,
    },
    howTurns: "Cómo giran las líneas",
    alike:
      "Algunas cañas están a igual distancia de la crujía, según sus puestos. Ponga cuánto sale cada una, en Equipo guardado, Puestos de caña.",
    order: "Orden",
    out: (rods) => `Largar: ${rods.join(", ")}.`,
    in: (rods) => `Recoger: ${rods.join(", ")}.`,
    practice: "La que va más lejos por la popa sale primero y entra última (práctica común, sin fuente).",
    use: "Usarlo en Líneas",
    used: "Líneas quedó según el plan.",
    usedWithout: (rods) =>
      `Líneas quedó según el plan; ${rods.length === 1 ? "recogida" : "recogidas"}: ${rods.join(", ")}.`,
    aloud: "En voz alta",
    cardOf: (at, all) => `${at} de ${all}`,
    noDrail: "Sin plomo",
    letOut: (length) => `Largue ${length}`,
    order1: "Sale primero",
    orderNext: "Sale después",
    orderLast: "Sale última",
    before: "Anterior",
    next: "Siguiente",
    cautions: [
      "Guantes puestos. Timón derecho mientras sale alambre.",
      "Nunca una vuelta de alambre en la mano. Dedos fuera del carrete: frénelo con su freno.",
      "Mire atrás antes de que se balancee la cuchara. Quítese de la dirección de una caña cargada.",
    ],
  },

  rise: {
    title: "Profundidad ahora",
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
    byPace: (speed) => `Calculado con ${speed} sobre el fondo, de Ritmo.`,
    byLines: (speed) => `Ritmo no tiene velocidad: calculado con los ${speed} de Líneas sobre el fondo.`,
    how: "En rumbo recto; entre dos lecturas el fondo se toma como recto.",
    coming: (seconds, verdict) => `${seconds ? `aquí en ${seconds} s` : "aquí ahora"}; ${verdict}`,
    verdicts: {
      "stays clear": "pasa libre",
      "comes close": "puede tocar en el camino",
      touches: "toca en el camino",
      "not sounded": "sin lecturas delante de él",
    },
    ahead: (depth, rod, touches, seconds) =>
      `Bajo adelante, ${depth}: caña\u00a0${rod} ${touches ? "toca" : "pasa cerca"} ${seconds ? `en ${seconds}\u00a0s` : "ahora"}.`,
    speed: (speed) => `Suba a ${speed}.`,
    lineOf: (lineIn, rod, first) => `${lineIn} en la ${first ? "caña\u00a0" : ""}${rod}`,
    takeIn: (lines, or) => `${or ? "O recoja" : "Recoja"} ${lines.join(", ")}.`,
  },
};
