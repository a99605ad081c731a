/** Palabras de Líneas. Los números llegan ya escritos, con sus unidades. */
import type { lines as en } from "../en/lines";

export const lines: typeof en = {
  lines: {
    rods: "Las líneas, caña por caña",
    deck: "Ajustar velocidad, fondo, línea y plomo",
    dials: { lineOut: "Línea", drail: "Plomo", sinker: "Plomada", speed: "Veloc.", bottom: "Fondo" },
    turned: (dial, rod, was) => `${dial}${rod > 0 ? ` de la caña ${rod}` : ""}: cambió; antes ${was}.`,
    turnedAll: (dial, rod, was) => `${dial} de todas las cañas: cambió; la caña ${rod} tenía ${was}.`,
    together: "Ajustar todas juntas",
    allIn: "Todas adentro",
    isIn: "adentro",
    allInNow: "Todas las líneas están adentro: no se avisa de ningún señuelo.",
    outAgain: "Otra vez afuera",
    outNow: "Las líneas están afuera, como se ajustaron.",
    allRods: "todas",
    withAll: (number) => `caña ${number} y todas`,
    oneRod: (number) => `caña\u00a0${number}`,
    none: "nada",
    speed: {
      fromPace: "de Ritmo",
      lost: (age) =>
        `Ritmo ${age ? `no tiene velocidad desde hace ${age}` : "aún no tiene velocidad"}: póngala a mano, o mire allí.`,
      lostBrief: "Sin velocidad de Ritmo",
      find: "Ver corriente",
      staysBrief: (set) => `Líneas queda en ${set}`,
      brief: (now, set) => `La embarcación va a ${now}, Líneas tiene ${set}`,
      differs: (now, set) => `La embarcación va ahora a ${now}; Líneas está en ${set}.`,
      guess: "No se conoce la corriente, así que es una suposición.",
      off: (verdict, rods) =>
        `A esa velocidad, ${rods.length === 1 ? "caña" : "cañas"} ${rods.join(", ")}: ${verdict.toLowerCase()}.`,
      take: "Tomarla",
      follow: "Seguir a Ritmo",
      taken: (speed) => `Líneas está en ${speed}.`,
      follows: "Líneas sigue la velocidad de Ritmo.",
      byHand: "Líneas ya no sigue a Ritmo.",
      fewFixes: (set) => `Ritmo tiene aún pocas posiciones: Líneas queda en ${set}.`,
      unsure: (off, set) =>
        `Ritmo conoce la velocidad solo a ±\u202f${off}: Líneas queda en ${set}. Busque la corriente, o espere.`,
    },
    firstStart: "Llega la calculadora. Viene una sola vez; después queda en este teléfono.",
    legend: { depth: (unit) => `${unit} abajo, 9 de 10`, odds: "donde se quiere" },
    working: "Calculando",
    asOf: (moment) => `cálculo: ${moment}`,
    noAnswer: "Sin respuesta",
    verdicts: {
      "in the band": "Donde se quiere",
      "too high": "Muy alto",
      "too deep": "Muy hondo",
      "on the bottom": "En el fondo",
    },
    perhaps: (verdict) => `Quizá ${verdict}`,
    explained: (low, high, from, to) =>
      `Nueve de cada diez veces va entre ${low} y ${high}. La barra: cuántas veces va donde se quiere, de ${from} a ${to} sobre el fondo.`,
    odds: {
      ofBand: "de que vaya donde se quiere",
      inBand: (chance) => `Donde se quiere ${chance}`,
      high: (chance) => `muy alto ${chance}`,
      deep: (chance) => `muy hondo ${chance}`,
      touch: (chance) => `toca ${chance}`,
    },
    offBottom: (distance) => `a ${distance} del fondo`,
    onBottom: "queda en el fondo: colgaría a esa profundidad",
    setting: (lineOut, weights) => `${lineOut} fuera${weights ? `, ${weights}` : ""}`,
    addRod: "Agregar una caña",
    added: (place) => `Agregada: ${place}.`,
    wantedNow: (low, high) => `Buscado: de ${low} a ${high} del fondo`,
    more: "Más",

    advice: {
      leave: "Está bien así",
      best: "Lo mejor que hay",
      goAt: (speed) => `Vaya a ${speed}`,
      backing: (said, length) => `${said}: salen ${length} de reserva`,
      weight: (mass, lineOut) => `Ponga ${mass}, con ${lineOut} fuera`,
      letOut: (length) => `Largue ${length} más`,
      takeIn: (length) => `Recoja ${length}`,
      wait: "Espere: hay bajo",
      brief: {
        letOut: (length) => `Largue ${length}`,
        weight: (mass) => `Ponga ${mass}`,
        heavier: "Más plomo",
        tooShort: "Falta línea",
        lighter: "Quite plomo",
      },
      notDeepEnough: (wire, backing, depth, heavier, speed) =>
        `Ni todo el alambre, ${wire}${backing ? `, con ${backing} de reserva` : ""}, pasa de ${depth}: ${
          heavier ? "ponga más plomo" : "más plomo no lo mejora"
        }${speed ? `${heavier ? " o" : ","} baje a ${speed}` : ""}`,
      notHighEnough: (shortest, depth, speed) =>
        `Aun con ${shortest} de línea va a ${depth}: quite plomo${speed ? ` o suba a ${speed}` : ""}`,
    },

    why: {
      "": "",
      "line too short": "Toda la línea de a bordo no lo lleva tan hondo.",
      "wire too short":
        "Todo su alambre no lo lleva tan hondo, y ninguna plomada más pesada lo mejora. Tendría que salir la reserva.",
      "shortest line deeper": "Aun la línea más corta va más hondo.",
      "weight out of water": "Con menos línea un peso o la unión colgaría fuera del agua.",
      "deeper without weight": "Ya va más hondo sin plomo: recoja línea.",
      "heaviest weight too light": "Ni el más pesado de estos lo baja: largue línea o baje la velocidad.",
      "always clear": "Queda libre del fondo a cualquier velocidad.",
      "always on the bottom": "Queda en el fondo a cualquier velocidad: recoja línea.",
    },

    causes: {
      none: "de nada: todo se tomó como exacto",
      mostly: (cause) => `sobre todo de ${cause}`,
      both: (first, second) => `de ${first} y de ${second}`,
      names: {
        "speed through the water": "la velocidad por el agua",
        "length of line out": "el largo de la línea fuera",
        "height of the rod tip": "la altura de la punta de la caña",
        "drag of the line": "la resistencia de la línea",
        "friction along the line": "el roce a lo largo de la línea",
        "weight of the lure": "el peso del señuelo",
        "drag of the lure": "la resistencia del señuelo",
        "lift of the lure": "la sustentación del señuelo",
        "weight of drails and sinker": "el peso de plomos y plomada",
      },
    },

    picture: {
      title: (depth) => `Las líneas de perfil, en ${depth} de agua.`,
      rod: (place, depth, off, verdict) => `${place}: ${depth}, ${off}, ${verdict}.`,
    },

    detail: {
      depth: "Profundidad del señuelo",
      odds: "Probabilidad",
      offBottom: "Fondo",
      doubt: (causes) => `El ± viene ${causes}`,
      tension: "Tensión en la punta",
      pull: (force) => `cerca de ${force}`,
      angle: "Línea en la punta",
      below: (angle) => `${angle} bajo la horizontal`,
      inAir: "Línea en el aire",
      astern: "Señuelo por la popa",
      asks: "Preguntar por esta caña",
      card: "Tabla de profundidades",
      drail: "¿Qué plomo?",
      slow: "¿Qué tan despacio antes de tocar?",
      rig: "Puesto y aparejo",
    },

    drail: {
      title: (place) => `Qué plomo: ${place}`,
      question: (lineOut, depth, speed) =>
        `Con ${lineOut} fuera a ${speed}, buscado a ${depth}. El plomo va donde se unen alambre y líder. Toque uno para ponerlo.`,
      reaches: (depth) => `va a ${depth}`,
      skims: "roza la superficie",
      mayTouch: (depth) => `va a ${depth}, puede tocar`,
      lies: (depth) => `iría a ${depth}: queda en el fondo`,
      nearest: "El más cercano",
      onNow: "el que lleva ahora",
      notAboard: "No están a bordo",
      put: (place, drail) => `${place}: ${drail ? `plomo de ${drail} puesto` : "sin plomo"}.`,
    },

    slow: {
      title: (place) => `Qué tan despacio: ${place}`,
      question: (lineOut, depth) => `Con ${lineOut} fuera en ${depth} de agua, toca fondo por debajo de`,
      already: (speed) => `Eso llega hasta los ${speed} de ahora: puede que ya toque.`,
      part: (part) => `Lo primero en tocar es ${part}.`,
      turns: "En rumbo recto. En un giro, la línea de adentro va más despacio y se hunde.",
    },
    parts: {
      lure: "el señuelo",
      drail: "el plomo",
      join: "la unión de alambre y líder",
      sinker: "la plomada",
    },

    wanted: {
      title: "Lo buscado sobre el fondo",
      what: "A qué distancia del fondo deben ir los señuelos.",
      high: "Borde superior",
      low: "Borde inferior",
      caution: "Cuánto se arrima",
      cautions: {
        "keep clear": "Lejos del fondo",
        "a tick now and then": "Que toque a veces",
        "along the bottom": "Rozando el fondo",
      },
      cautionWhat:
        "Un toque puede costar la cuchara. El consejo deja tocar hasta 1 vez de 20, 3 de 20 o 3 de 10: a juicio, sin fuente.",
      sounding: "La sonda puede errar en",
      tide: "La marea puede haber cambiado",
      rule: (distance, label) => `Regla práctica: a menos de ${distance} del fondo (${label}).`,
    },

    water: {
      title: "Agua",
      about: "Qué tan tibia, qué tan salada",
      what: "El agua más fría es más espesa: frena más el alambre fino, y los señuelos van un poco más arriba. La sal la hace más pesada, así que todo lo que se hunde pesa un poco menos en ella.",
      temperature: "Temperatura",
      salinity: "Sal",
      places: { open: "Mar abierto", bay: "Bahía", mouth: "Boca de río", river: "Río" },
      salinities: (place, salinity) => `${place}, ${salinity}`,
      salt: "Gramos de sal por kilo, más o menos, de memoria. Después de mucha lluvia, tome el siguiente hacia abajo.",
      used: (density, viscosity) =>
        `Calculado con una densidad de ${density} y una viscosidad de ${viscosity}, para todas las cañas.`,
    },

    doubt: {
      title: "Qué tan seguro",
      about: "De qué sale el ±, y cómo achicarlo",
      what: [
        "El ± de cada profundidad sale de estos: dos de cada tres veces, un número no se aparta más de lo que dice aquí, para un lado o para el otro.",
        "Una velocidad medida por el agua, un señuelo pesado en balanza y buenas marcas en el alambre achican el ±. Todo son juicios de memoria hasta que los toques de fondo de esta embarcación digan algo mejor.",
      ],
      first: (value) => `al principio ±\u202f${value}`,
      names: {
        speed: "Velocidad por el agua",
        lineOut: "Línea fuera",
        tipHeight: "Altura de la punta de la caña",
        lineDrag: "Resistencia de la línea",
        friction: "Roce a lo largo de la línea",
        lureWeight: "Peso del señuelo",
        lureDrag: "Resistencia del señuelo",
        lureLift: "Sustentación del señuelo",
        sinkers: "Peso de plomos y plomada",
      },
      hints: {
        speed: "Medida por el agua: menos. Solo sobre el fondo: tanto como pueda ser la corriente.",
        lineOut: "Marcas medidas con tensión: menos. Vueltas contadas del carrete: más.",
        tipHeight: "El oleaje, y lo que dobla la caña.",
        lineDrag: "De través: zumbido, algas, cocas.",
        friction: "A lo largo: qué tan áspera es.",
        lureWeight: "En el agua. Pesado en una balanza: menos.",
        lureDrag: "Cuánto tira el señuelo. Casi nadie lo ha medido.",
        lureLift: "Si sube o baja por sí solo, como un área.",
        sinkers: "Como viene estampado, o pesados.",
      },
    },

    rig: {
      title: "Puesto y aparejo",
      place: "Puesto",
      tip: (height) => `punta a ${height}`,
      rig: "Aparejo",
      edit: "Cambiar este aparejo",
      all: "Todos los aparejos",
      remove: "Recoger esta caña",
      removed: (place) => `Recogida: ${place}.`,
    },
  },

  thumb: {
    name: "Regla práctica",
    labelled: (depth, label) => `${depth} (${label})`,
    beside: (depth, label) => `Regla práctica: ${depth} (${label})`,
    caption: (label) => `Regla: la regla práctica (${label}).`,
  },
};
