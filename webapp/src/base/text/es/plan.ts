/** Palabras del plan de las líneas. Los números llegan ya escritos, con sus unidades. */
import type { plan as en } from "../en/plan";

export const plan: typeof en = {
  plan: {
    title: "Plan de las líneas",
    what: (speed, bottom, low, high) =>
      `A ${speed} en ${bottom} de agua, buscado de ${low} a ${high} del fondo.`,
    goFirst: (now, speed) => `Líneas tiene ${now}: vaya primero a ${speed}.`,
    people: "Personas a bordo",
    peopleFrom: {
      trip: "según lo anotado en esta salida",
      rods: "bastan para todas las cañas",
      own: "como se fijó aquí",
    },
    drails: "Plomos a bordo",
    drailsWhat: "Cuántos de cada uno. El plan no usa más que estos.",
    noDrails: "ninguno",
    times: (count, weight) => `${count}\u00a0×\u00a0${weight}`,
    rides: (depth, off, astern) => `Va a ${depth}, ${off}, ${astern} por la popa.`,
    asSet: (odds) => `Como está puesta ahora: ${odds}`,
    reasons: {
      middle: "Apunta al medio de lo buscado",
      deeper: (by) => `Apunta ${by} por debajo del medio de lo buscado, para ir aparte`,
      higher: (by) => `Apunta ${by} por encima del medio de lo buscado, para tocar menos o ir aparte`,
      farthest: "la que va más lejos por la popa",
      ahead: (distance, rod) => `${distance} por delante del señuelo de la caña\u00a0${rod}`,
      beside: "Va al lado de otro señuelo: nada de a bordo los aparta más.",
      stays: (tended) =>
        `Queda a bordo: una persona lleva el timón, y cada una de las demás atiende ${tended} cañas (práctica común, sin fuente).`,
      sinker: (own, better) => `Este tres vías no llega bastante hondo con ${own}; con ${better}, sí.`,
      speed: (speed) => `A ${speed} llegaría.`,
      backing: (length) => `Salen ${length} de reserva después del alambre.`,
      lengths: {
        "": "",
        lighter: "Larga porque va liviana, como las de afuera: con más peso sería más corta",
        "drails missing": "Tan larga por falta de un plomo más pesado a bordo",
        odds: "Tan larga para ir a su profundidad y aparte de las demás",
        "by its sinker": "Tan larga porque su tres vías va según su propia plomada",
        "beside a three-way": "Tanto más larga porque a su lado un tres vías va según su propia plomada",
      },
      alone: (why) => `Nada que proponer: ${why}.`,
    },
    missing: (drails) => `Mejor con plomos que no están a bordo: ${drails.join(", ")}.`,
    closest: (a, b, distance, astern) =>
      `Lo más cerca entre sí: ${a} y ${b}, a ${distance}, ${astern} por la popa, en rumbo recto. En un giro las líneas se acercan más.`,
    turnHolds: (quarter) =>
      `En un giro de 90° en ${quarter}, a cualquier banda, todos los señuelos quedan libres del fondo y las líneas separadas.`,
    raised: "Para eso, todos van en la parte alta de lo buscado.",
    spaced: "Para eso, van más separados por la popa.",
    turnBreaks: (quarter, side, why) =>
      `No para un giro de 90° en ${quarter}: a ${side.toLowerCase()}, ${why}. Gire más abierto.`,
    breaks: {
      none: () => "",
      bottom: (rod) => `el señuelo de ${rod} se acerca demasiado al fondo`,
      lines: (rod, other) => `las líneas de ${rod} y ${other} se acercan demasiado`,
      air: (rod) => `un plomo o el señuelo de ${rod} sale del agua`,
      collapse: (rod) => `la línea de ${rod} se desploma`,
    },
    howTurns: "Cómo giran las líneas",
    alike:
      "Algunas cañas están a igual distancia de la crujía, según sus puestos. Ponga cuánto sale cada una, en Equipo guardado, Puestos de caña.",
    order: "Orden",
    unordered: {
      "": "",
      "drails missing":
        "Lo usual es que la de más afuera vaya más atrás y las de adentro no sean más livianas: para eso faltan plomos a bordo.",
      "three-way by its sinker":
        "Lo usual es que la de más afuera vaya más atrás y las de adentro no sean más livianas: un tres vías va según su propia plomada, así que queda fuera de ese orden.",
      "outer line too short":
        "Lo usual es que la de más afuera vaya más atrás y las de adentro no sean más livianas: una caña de afuera tiene muy poca línea.",
      "order would miss":
        "Lo usual es que la de más afuera vaya más atrás y las de adentro no sean más livianas: así algunas no irían donde se busca, o tocarían.",
    },
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
};
