/** Palabras del marco: nombres, unidades, avisos, precauciones. Los números llegan ya escritos, con sus unidades. */
import { writtenIn } from "../../phone/region";
import { named } from "../../store/named";
import type { frame as en } from "../en/frame";
import { catalogue } from "./catalogue";

const written = writtenIn("es");

export const frame: typeof en = {
  language: "es",

  fromDesk: catalogue,

  app: {
    name: "Wirewake",
    description:
      "A qué profundidad va cada señuelo con línea de alambre: calculado en este teléfono, sin señal.",
  },

  places: { lines: "Líneas", pace: "Ritmo", notes: "Notas", fish: "Peces", crew: "Tripulación" },

  units: {
    ft: "ft",
    fm: "bz",
    m: "m",
    in: "pulg",
    mm: "mm",
    cm: "cm",
    oz: "oz",
    g: "g",
    lb: "lb",
    kg: "kg",
    kn: "kn",
    nm: "mn",
    "lb of mass": "lb",
    "kg of mass": "kg",
    h: "h",
    "W/(m²·K)": "W/(m²·K)",
    "g/cm³": "g/cm³",
    "cm²": "cm²",
    "°": "°",
    "×": "×",
    "": "",
    "%": "%",
    "mm²/s": "mm²/s",
    "/min": "por minuto",
    "°C": "°C",
    "°F": "°F",
    L: "L",
    qt: "qt",
  },

  unitsInWords: {
    ft: "pies",
    fm: "brazas",
    m: "metros",
    oz: "onzas",
    g: "gramos",
    lb: "libras",
    kg: "kilos",
    "°F": "Fahrenheit",
    "°C": "Celsius",
  },

  palettes: {
    title: "Luz",
    names: { day: "Día", dusk: "Ocaso", night: "Noche" },
    change: (now, next) => {
      const names = { day: "día", dusk: "ocaso", night: "noche" };
      return `Luz: ${names[now]}. Cambiar a ${names[next]}`;
    },
  },

  parts: {
    back: "Volver",
    less: (what) => `${what}: menos`,
    more: (what) => `${what}: más`,
    otherWord: "Otro",
    typed: (field) => `${field}, con otras palabras`,
    tapToType: "Toque para escribir un número",
    first: {
      back: "Como al principio",
      is: "Todo está como al principio.",
      done: "Todo está otra vez como al principio.",
    },
    gone: "Ya no está aquí",
    goneWhy: "Se quitó, o la dirección está mal. No se perdió nada más.",
  },

  heard: {
    parts: { depth: "la profundidad", speed: "la velocidad", warmth: "la temperatura" },
    live: "de los instrumentos de la embarcación",
    mark: (age) => `de los instrumentos de la embarcación, hace ${age}`,
    byHand: (part) => `Desde ahora ${part} es la puesta a mano.`,
  },

  problems: {
    range: (min, max, unit) => `Debe ser de ${min} a ${max} ${unit}. Sigue como estaba.`,
    notANumber: (kept) => `No es un número. Sigue: ${kept}. Escriba cifras, como ${written(3.2)}.`,
    byId: {
      beyondCentre: "quedaría más allá del centro de un giro tan cerrado",
      tooHard: "no se puede seguir en un cambio tan brusco: hágalo más despacio",
      sectionTwice: "está repetido: dé uno propio a cada tramo",
      firstSection: "debe quedar vacío: el primer tramo cuelga de la embarcación",
      laterSection: "debe ser el nombre de un tramo anterior",
      tooLight: "flotaría más que su propio volumen: auméntelo, o el diámetro",
      depthsMixed: "debe ser mayor que la profundidad anterior",
      noBottom: "debe darse: la profundidad del agua bajo la línea",
      turnInShear: "debe quedar vacío: un giro es parejo solo en una corriente igual a toda profundidad",
      notAsMany: "debe tener tantos como los otros dos ejes",
      bandUpsideDown: "no debe estar por debajo del borde inferior de lo buscado",
      bandInBottom: "debe ser menor que la profundidad del agua",
      speedsUpsideDown: "no debe ser menor que la velocidad más baja buscada",
      fastestSlow: "debe ser mayor que la velocidad más lenta",
      agesMixed: "debe ser mayor que la edad anterior",
      backMixed: "no debe ser menor que el de la lectura anterior",
      pingsMixed: "no debe ser anterior a la hora de la lectura anterior",
      pingsAhead: "no debe ser anterior a la hora de la última lectura",
      timesMixed: "no debe ser anterior al de arriba",
      girthLimits: `debe ser 0 o de ${written(0.05)} a 2 m`,
      lengthLimits: `debe ser 0 o de ${written(0.15)} a 2 m`,
      massLimits: `debe ser 0 o de ${written(0.04)} a 80 kg`,
      noGirth: "debe darse, o bien la longitud",
      noLength: "debe darse, o bien el peso",
      colderThanBath: "debe ser mayor que la del baño",
      afterHold: "no debe ser posterior al final de la conservación",
      noIceLeft: "no deja hielo de sobra: use menos agua de mar por cada kg de hielo",
      bandInAir: "pone el medio de lo buscado sobre la superficie",
      neverUnder: "ningún plomo ni largo de línea lleva su señuelo bajo el agua en equilibrio",
      noAngle: "debe darse: el ángulo del alambre bajo la horizontal en la puntera",
      noEntry: "debe darse: a qué distancia detrás de la puntera entra el alambre en el agua",
      tipInWater: "debe estar sobre el agua para que diga algo dónde entra el alambre",
      noPull: "debe darse: lo que marca la balanza",
      noEquilibrium: "no tiene equilibrio bajo el agua: revise línea fuera, plomos y velocidad",
      aboveLeader: "no debe pasar del largo de ningún líder",
      notAsked: "debe pedirse con un nombre y una petición, ambos textos",
      program: "no se puede calcular: es un error de este programa; por favor, avise",
      noSuchDay: "no existe en ese mes",
      noSuchDate: "debe ser una fecha: año-mes-día como 2024-05-01, 2024-05 o 2024",
      sameName: "debe ser otro que los anteriores, y que id, kind, time o spread",
      sameID: "debe ser otro que el de cada evento anterior",
      boatBelowPerson: "no debe ser menos de lo que esta persona ha guardado",
      lengthsMixed: "no debe ser menor que el largo mínimo",
      bandMixed: "no debe ser menor que el extremo bajo de lo buscado",
      otherSide: "está al otro lado de la Tierra",
      stationsNot: "no es una tabla de estaciones de marea y corriente de esta versión",
      stationsDamaged: "está dañada: vuelva a cargar la tabla de estaciones",
      stationsAbsent: "no se conoce: las tablas de marea y corriente aún no están en este teléfono",
      stationUnknown: "no está entre las estaciones de estas aguas",
      stationOther: "predice otra cosa: elija una para lo que se pregunta",
      stationDatums: "tiene alturas sobre ningún nivel conocido: elija una cercana",
      stationConstituents: "no tiene constituyentes: elija una cercana",
      stationRejected: "tiene niveles que se contradicen: elija una cercana",
      stationReference: "se deriva de una que no tiene predicciones: elija una cercana",
      endsBefore: "no debe ser anterior al comienzo",
      noFactor: "debe ser el lugar de un factor de la embarcación",
      noFactors: "deben ser los lugares de dos factores",
      noSet: "debe ser el lugar de una línea de esta salida",
      levelEach: "debe tener uno por cada factor",
      noLevel: "debe ser un nivel de su factor",
      noEvents: "debe tener al menos uno para un calendario",
      fortyDays: "debe estar a menos de 40 días del comienzo",
      longSpan: "debe estar a menos de 400 días del comienzo",
      stepShort: "es demasiado corto para tanto tiempo",
      outOfYears: "debe estar en los años para los que sirven las constantes de las estaciones",
      slack: "la línea queda floja: dele más peso o resistencia, o acórtela",
      tooLong: "demasiado larga y liviana para calcularla: acorte la línea o dele más peso o resistencia",
      skims: "demasiado corta: el señuelo iría rozando la superficie; largue más línea",
      floats: "una parte saldría a la superficie: dele más peso o menos sustentación, o baje la velocidad",
      collapses:
        "el aparejo se viene abajo en un giro tan cerrado: gire más abierto, acorte la línea o acelere",
      inAir: "demasiado corta: un plomo o una unión colgaría fuera del agua; largue más línea",
    },
    byCode: {
      syntax: () => "no se puede leer",
      missing: () => "falta",
      unknown: () => "no se conoce aquí",
      type: () => "no es de la clase que debe ser",
      range: (min, max) => (min && max ? `debe ser de ${min} a ${max}` : "debe ser un número"),
      count: (min, max) => `debe tener de ${min} a ${max} elementos`,
      length: (min, max) => `debe tener de ${min} a ${max} letras`,
      physics: () => "no tiene solución con estos valores",
    },
    other: (what) => `${what.charAt(0).toUpperCase()}${what.slice(1)}.`,
    named: (field, what) => `${fieldNames[field] ?? field} ${what}. Sigue como estaba.`,
  },

  locker: {
    title: "Pañol",
    language: "Idioma",
    units: {
      depth: "Profundidad en",
      line: "Línea en",
      weight: "Pesos en",
      pull: "Tensión y resistencia en",
      temperature: "Temperatura en",
    },
  },

  odds: {
    under: "menos de 1 de 10",
    over: "más de 9 de 10",
    in: (times) => `${times} de 10`,
    brief: { under: "<1 de 10", over: ">9 de 10" },
  },

  ages: {
    seconds: (n) => `${n}\u00a0s`,
    minutes: (n) => `${n}\u00a0min`,
    both: (minutes, seconds) => `${minutes}\u00a0min ${seconds}\u00a0s`,
    hours: (n) => `${n}\u00a0h`,
  },

  quick: {
    mark: "Marcar",
    noteTouch: "Tocó",
    fishUp: "Pez arriba",
  },

  cry: {
    control: "Al agua",
    arm: {
      ask: "¿Hay alguien en el agua?",
      noted: (time, place, age) =>
        place
          ? `Lugar y hora del toque, guardados: ${time}, ${place}, posición de hace ${age}.`
          : `Hora del toque, guardada: ${time}. Aún sin lugar.`,
      yes: "Sí: hombre al agua",
      other: "Otra emergencia",
      no: "No hay nadie",
    },
  },

  wetLock: {
    name: "Bloqueo contra el agua",
    short: "Bloquear",
    on: "Bloqueada contra agua y mangas.",
    how: "Toque 1, luego 2.",
    first: "1",
    second: "2",
    firstName: "Desbloquear: primer toque",
    secondName: "Desbloquear: segundo toque",
  },

  notices: {
    undo: "Deshacer",
    short: {
      restarted: "La calculadora arrancó de nuevo",
      storage: "Algo no se pudo leer",
      early: "Algo quedó apartado",
      update: "Hay una versión nueva",
      insecure: "Aún no guardada para el mar",
      away: "No llegó una parte de la aplicación",
      stopped: "Calculadora parada",
      unsaved: "Sin guardar",
      full: "Memoria llena",
      more: (first, others) => (others > 0 ? `${first}, y ${others} más` : first),
      hide: "Menos",
    },
    nextAlarm: (at, of, next) => `${at} de ${of}. Sigue: ${next}`,
    otherAlarms: (others) => `También: ${others.join(", ")}.`,
    noted: "Visto",
    startAgain: "Iniciar",
    deskRestarted: "La calculadora se detuvo y arrancó de nuevo. No se perdió nada de lo que escribió.",
    deskStopped: "La calculadora no arranca: las profundidades son viejas o faltan. Lo escrito está a salvo.",
    storage: {
      unopened: (documents) =>
        `La memoria de este teléfono no respondió, así que se muestran los valores de costumbre. Lo que haya guardado allí queda tal como está y aparece en cuanto responda; lo que cambie antes se guarda entonces, y aparte si ya había algo guardado. Sin leer: ${nameAll(documents)}.`,
      unsaved: (full) =>
        full
          ? "La memoria de este teléfono está llena: sus últimos cambios se ven pero no están guardados. Libere espacio; el guardado sigue solo."
          : "Sus últimos cambios se ven pero no están guardados. Deje abierta esta página; se intenta de nuevo sin hacer nada.",
    },
    aside: {
      report: "La aplicación no pudo mostrar algo, por una falla suya. Aquí queda un informe.",
      what: (documents) =>
        `No se pudo leer esto: ${nameAll(documents)}. Quedó apartado tal como estaba; en su lugar van los valores de costumbre. Revíselos.`,
      early: (documents) =>
        `La memoria de este teléfono respondió tarde: se muestra lo que había guardado. Lo que se cambió aquí antes quedó apartado: ${nameAll(documents)}.`,
      save: "Guardarlo en un archivo",
      saved: "Hay un archivo guardado.",
      letGo: "Descartarlo",
      gone: "Se descartó lo que estaba apartado.",
    },
    failed: {
      what: (what) =>
        `${what}: no se puede mostrar, por una falla de la aplicación. Todo lo demás sigue, y no se perdió nada de lo ingresado. Queda un informe en el Pañol.`,
      again: "Probar otra vez",
      page: "Esta página",
    },
    notLoaded: {
      what: "Esta página no se cargó. Con el servidor de la embarcación al alcance llega; nada de lo que escribió se pierde.",
      again: "Cargar otra vez",
    },
    update: "Hay una versión nueva. Cárguela cuando esté en el muelle.",
    loadUpdate: "Cargarla",
    insecure:
      "Esta página llegó por http simple, así que el teléfono no puede conservarla: sin señal no volverá a abrirse. Funciona mientras siga abierta.",
    whatToDo: "Qué hacer",
  },

  cautions: {
    title: "Precauciones",
    about: "Alambre, anzuelos, mar y ley",
    short: "El alambre tenso corta. Mire la sonda. Decide el patrón.",
    estimate:
      "Las profundidades son estimaciones; el ± es donde va el señuelo nueve de cada diez veces. Mire la sonda.",
  },
};

const fieldNames: { [field: string]: string } = {
  low: "El borde inferior de lo buscado",
  high: "El borde superior de lo buscado",
  lineOut: "La línea fuera",
  bottom: "La profundidad del agua",
  speed: "La velocidad",
  mass: "El plomo",
};

const documents: { [name: string]: string } = {
  log: "las notas",
  settings: "las unidades elegidas",
  gear: "parte del equipo guardado",
  spread: "las cañas, o una de ellas",
  water: "la temperatura y la sal del agua",
  doubt: "lo ajustado en Qué tan seguro",
  pace: "lo ajustado para Ritmo",
  current: "la corriente",
  "typed motion": "la velocidad y el rumbo escritos",
  marks: "algunas marcas de cómo nadan las cucharas",
  boat: "parte de los datos de la embarcación",
  lists: "algunas listas",
  plan: "el plan de salida",
  briefed: "algunas marcas de la charla",
  rules: "parte de las reglas de talla y cupo",
  fish: "parte de los peces en curso y en hielo",
  ice: "el plan de hielo, o una nevera",
  slush: "lo ajustado para la mezcla de hielo",
  keeping: "las temperaturas de un pescado",
  notches: "lo que hace un punto del acelerador",
  lessons: "lo que los toques enseñaron de las líneas",
  taught: "lo que se enseñó de las líneas",
  teaching: "lo que estaba enseñando",
  soundings: "lo que marcó la sonda",
  "bottom-set": "cuándo se fijó el fondo",
  forgotten: "qué sondas se olvidaron",
  hands: "cuántas personas hay a bordo",
};

const nameAll = (names: string[]) =>
  named(names, documents, "algo guardado en este teléfono", (others) => `y ${others} más`);
