/** Palabras para enseñar lo que ya se sabe de las líneas. */
import type { teach as english } from "../en/teach";

export const teach: typeof english = {
  teach: {
    title: "¿Qué sabe ya?",
    ask: "Enséñele lo que sabe",
    what: "Ajustes de antes en los que confía: tanta línea, este plomo, esta velocidad, y apenas tocaba en tanta agua. Dos o tres achican el ±; los recientes, más.",
    rig: "Aparejo",
    place: "Puesto",
    lineOut: "Línea fuera",
    drail: "Plomo",
    sinker: "Plomada",
    speed: "Velocidad por el agua",
    ticks: "Apenas toca en",
    sure: "Qué tan seguro de esa profundidad",
    sures: { sure: "Seguro", quite: "Bastante", roughly: "Más o menos" },
    when: "Cuándo fue",
    whens: { now: "En esta salida", season: "Esta temporada", before: "Hace años" },
    add: "Enseñarle esto",
    added: (what) => `Enseñado: ${what}.`,
    gone: (what) => `Ya no cuenta: ${what}.`,
    forget: "Tacharlo",
    all: "Enseñado hasta ahora",
    kinds: {
      known: (lineOut, reading) => `${lineOut} fuera toca en ${reading}`,
      angle: (lineOut, reading) => `${lineOut} fuera: alambre ${reading} bajo la horizontal`,
      entry: (lineOut, reading) => `${lineOut} fuera: entra al agua a ${reading} por la popa`,
      pull: (lineOut, reading) => `${lineOut} fuera tira ${reading}`,
    },
    before: "Antes",
    now: "Ahora",
    band: (place) => `Lo que aporta: ${place}`,
    kept: "Queda en este teléfono, para sus propias profundidades: solo el patrón y los tripulantes enseñan las líneas de la embarcación.",
    goes: "Va a los demás teléfonos de la embarcación con las notas de una salida; hasta entonces queda aquí.",
    effective: (used, effective) => `Cuentan ${used}, y dicen tanto como ${effective} sin nada en común.`,
    shared: {
      "": "",
      "speed through the water": "Comparten una velocidad: otro día, otra velocidad enseñaría más.",
      "line out and height of the tip":
        "Comparten una marca del alambre o una caña: otra caña enseñaría más.",
      instrument: "Comparten una sonda, marea o lectura: otro día enseñaría más.",
    },
    more: "Más maneras de enseñarle",

    sight: {
      title: "Mire a lo largo del alambre",
      how: [
        "Párese lejos del alambre, detrás de la caña. Nadie pasa la mano sobre un alambre cargado, y el teléfono tampoco se acerca.",
        "Ponga el borde largo del teléfono a lo largo del alambre como lo ve, de la puntera al agua, y manténgalo diez segundos.",
      ],
      start: "Empezar: diez segundos",
      holding: (left) => `Manténgalo: ${left} s`,
      denied:
        "Este teléfono no dice aquí su inclinación. Permita el movimiento en los ajustes del navegador, o escriba el ángulo.",
      swings: (spread) =>
        `Osciló ${spread}: demasiado para contar. Espere un tramo tranquilo y pruebe de nuevo.`,
      read: (angle, spread) => `${angle} bajo la horizontal, ± ${spread}`,
      use: "Enseñarle este ángulo",
      again: "Otra vez",
      typed: "O escriba el ángulo",
      entry: "O: dónde entra el alambre al agua",
      entryWhat: "A tanta distancia de la puntera por la popa, a ojo o por una marca del alambre.",
      useEntry: "Enseñarle esta distancia",
    },
    pull: {
      title: "Cuánto tira",
      how: [
        "Ninguna mano cerca del alambre cargado. Navegando a velocidad de curricán, afloje el freno hasta que apenas deslice, y déjelo así.",
        "En el muelle, sin el señuelo, saque línea contra ese freno con una balanza y lea lo que marca. Un freno cuyas marcas ya pesó antes no necesita balanza.",
      ],
      lineOut: "Línea fuera entonces",
      speed: "Velocidad entonces",
      was: (lineOut, speed) => `Con ${lineOut} fuera, a ${speed}: cámbielo arriba.`,
      reads: "La balanza marca",
      use: "Enseñarle esta tensión",
    },
    right: {
      title: "¿Acertó?",
      none: "Nada que mostrar aún. Cada toque se compara con lo que se había previsto antes.",
      record: (wire, inside, touches) =>
        `${wire}: ${inside} de los últimos ${touches} toques cayeron dentro del ±`,
      what: "De diez, deberían nueve. La barra es donde se preveía que tocara, la marca donde tocó.",
      told: (band, read) => `previsto ${band}, tocó en ${read}`,
    },
  },
};
