/** Palabras de Ritmo. Los números llegan ya escritos, con sus unidades. */
import type { pace as en } from "../en/pace";

export const pace: typeof en = {
  pace: {
    noSpeed: "No se conoce la velocidad",
    throughWater: "Por el agua",
    overGround: "Sobre el fondo",
    reckoned: "calculada de las posiciones, pues este teléfono no da velocidad",
    mean: (seconds) => `promedio de ${seconds}\u00a0s`,
    fix: (age, accuracy) => `posición de hace ${age}, con ${accuracy} de error`,
    typedAgo: (age) => `escrito hace ${age}`,
    gone: (speed, age) => `Sin posición desde hace ${age}. Era ${speed}.`,
    before: (speed, age) => `Era de ${speed} hace ${age}.`,
    reckoning: "Llegan posiciones; la velocidad se está calculando de ellas. Tarda unos diez segundos.",
    poor: (accuracy) =>
      `Llegan posiciones, pero con ${accuracy} de error: muy malas para decir la velocidad. Dele cielo abierto al teléfono, o escriba la velocidad.`,
    receivers: {
      resting: "",
      asking: "Esperando la primera posición. A cielo abierto llega en un minuto o dos.",
      refused:
        "Este teléfono no le da su posición a esta aplicación. Permítalo en los ajustes del navegador para esta dirección y abra Ritmo de nuevo; o escriba velocidad y rumbo del instrumento de la embarcación.",
      none: "Este teléfono no da posición aquí. Escriba velocidad y rumbo del instrumento de la embarcación.",
      on: "El receptor de este teléfono no dice la velocidad. Escriba velocidad y rumbo del instrumento de la embarcación.",
    },
    current: (drift, set) => `Corriente de ${drift} hacia ${set}`,
    weighed: (drift, set) => `junto con las tablas, que dan ${drift} hacia ${set}`,
    currentAge: (age, rough) =>
      `de hace ${age}${rough ? ", aproximada" : ""}. La marea cambia: si duda, búsquela otra vez.`,
    currentUnknown: "No se conoce la corriente, así que es una suposición. Busque la corriente.",
    verdicts: {
      "hold it": "Así, sin cambios",
      "perhaps hold it": "Quizás así, sin cambios",
      "a little faster": "Más rápido",
      "a little slower": "Más lento",
      "perhaps a little faster": "Quizás más rápido",
      "perhaps a little slower": "Quizás más lento",
    },
    more: (change, to) => `${change} más sobre el fondo: ${to}`,
    less: (change, to) => `${change} menos sobre el fondo: ${to}`,
    steady: (low, high) => `Bien de ${low} a ${high} sobre el fondo en este rumbo`,
    notches: (n) => `${Math.abs(n) === 1 ? "Un punto" : `${Math.abs(n)} puntos`} ${n > 0 ? "más" : "menos"}`,
    notched: "Lo moví un punto",
    watchingNotch: "Mirando qué hace ese punto: siga derecho 20 s.",
    wantedNow: (low, high, from) =>
      `Buscado: de ${low} a ${high}, ${
        {
          own: "como se fijó aquí",
          learned: "según sus marcas de esta cuchara",
          begun: "práctica común y sus primeras marcas",
          practice: "práctica común, sin fuente",
        }[from]
      }`,
    gauge: (wanted, speed) => `Buscado ${wanted}; por el agua ${speed}.`,
    swing: (slow, fast) => `En el último medio minuto, de ${slow} a ${fast} sobre el fondo.`,
    swingDepth: (place, deep, shallow) =>
      `Si se quedara en un extremo, ${place} iría ${deep === shallow ? `a ${deep}` : `entre ${shallow} y ${deep}`}; los tirones rápidos llegan al señuelo muy debilitados.`,
    useOnLines: "Líneas toma esta velocidad",
    following: "Líneas sigue esta velocidad",
    deck: "Golpes y corriente",
    tapBeat: "Contar golpes",
    find: "Buscar la corriente",
    steer: "Rumbo",
    how: "Ajustes",
    type: "Escribirla",

    beat: {
      title: "Los golpes de la cuchara",
      here: "Toque aquí con cada golpe",
      pause: "Una pausa empieza de nuevo.",
      spoon: (spoon) => `De: ${spoon}`,
      minute: "por min",
      none: "–",
      why: {
        "": "",
        "too few taps": "Siga tocando con cada golpe.",
        "too irregular": "Muy irregular: un toque por golpe, o espere a que sean parejos.",
        "too slow or fast": "Muy lento o muy rápido para ser los golpes: un toque por golpe.",
      },
      steadiness: { "not known": "", steady: "Toques parejos", uneven: "Toques disparejos" },
      more: (n) => (n === 1 ? "un toque más para ±\u202f5\u00a0%" : `${n} toques más para ±\u202f5\u00a0%`),
      enough: "±\u202f5\u00a0% o mejor",
      right: (beat, speed) => `Bien fue ${beat ?? ""}${beat && speed ? " a " : ""}${speed ?? ""}.`,
      nowIs: (feel, chance) =>
        `${{ "too slow": "Probablemente muy lento", right: "Probablemente bien", "too fast": "Probablemente muy rápido" }[feel]} (${chance})`,
      missing: (slow, right, fast) =>
        `Aún no hay marcas suficientes. Faltan: ${[
          slow > 0 && `${slow} de muy lento`,
          right > 0 && `${right} de bien`,
          fast > 0 && `${fast} de muy rápido`,
        ]
          .filter(Boolean)
          .join(", ")}.`,
      begun: (low, high, marks) =>
        `Por ahora de ${low} a ${high}: se empezó con la práctica común (sin fuente) y se ajustó con ${
          marks === 1 ? "su primera marca" : `sus primeras ${marks} marcas`
        }.`,
      toRest: (slow, right, fast) =>
        `Para ir solo por sus marcas faltan: ${[
          slow > 0 && `${slow} de muy lento`,
          right > 0 && `${right} de bien`,
          fast > 0 && `${fast} de muy rápido`,
        ]
          .filter(Boolean)
          .join(", ")}.`,
      unclear:
        "Estas marcas no van con los golpes y la velocidad. Retire una equivocada en Notas, o empiece de nuevo con esta cuchara.",
      practice: (low, high, label) => `Para empezar: de ${low} a ${high} (${label}).`,
      judge: "¿Cómo nada? Una marca le enseña a este teléfono.",
      rods: "De qué caña",
      tip: { "too slow": "muerta", right: "vibra", "too fast": "gira" },
      justNote: "Solo anotarlo",
      noted: (feel) =>
        feel
          ? `Marcado y anotado: ${{ "too slow": "muy lento", right: "bien", "too fast": "muy rápido" }[feel]}.`
          : "Anotados: los golpes.",
      old: (age) => `marcado hace ${age}`,
      forget: "Olvidar las marcas de esta cuchara",
      forgotten: "Se olvidaron las marcas de esta cuchara.",
    },

    finding: {
      title: "Buscar la corriente",
      what: "En rumbos distintos, con el acelerador fijo, la velocidad sobre el fondo delata la corriente.",
      anyTurn: "Con las líneas como están puestas en Líneas sirve cualquier giro.",
      noTurn:
        "Con las líneas como están puestas en Líneas ningún giro las deja libres: búsquela antes de largarlas, o con dos tramos rectos en rumbos opuestos.",
      notTighter: (lasts, radius) =>
        `Con las líneas como están puestas en Líneas: ningún círculo entero en menos de ${lasts}, un radio de ${radius}.`,
      careful:
        "Con líneas fuera: gire abierto. Un giro cerrado hunde los señuelos de adentro y puede cruzar los alambres.",
      turn: "Con un giro",
      turnHow:
        "Fije el acelerador y déjelo. Empiece ya girando, y gire parejo: una vuelta entera, al menos media, no más cerrada de lo que permiten sus líneas.",
      legs: "Con tramos rectos",
      legsHow:
        "Lleve un tramo recto medio minuto y tómelo; después otro al rumbo opuesto por el compás, o tres o más a cualquier rumbo.",
      turning: (arc, count) =>
        count === 0 ? "Esperando posiciones." : `Girado hasta ahora ${arc}, ${count} posiciones.`,
      goOn: (arc) => `Siga girando hasta ${arc} por lo menos.`,
      takeLeg: "Tomar este tramo",
      noMotion: "No hay velocidad ni rumbo que tomar: espere una posición, o escríbalos.",
      leg: (number, speed, course) => `Tramo ${number}: ${speed}, ${course}`,
      dropLeg: "Quitar el último tramo",
      stop: "Terminar",
      found: (drift, set) => `Corriente de ${drift} hacia ${set}`,
      slack: (drift) => `Corriente de ${drift}: demasiado débil para saber hacia dónde`,
      speed: (speed) => `Velocidad por el agua en esta prueba: ${speed}`,
      qualities: { none: "", rough: "Aproximada", good: "Buena" },
      change: "El acelerador cambió en el camino. Déjelo fijo, o empiece de nuevo.",
      aside: (count) => (count === 1 ? "Una posición no cuenta." : `${count} posiciones no cuentan.`),
      use: "Usar esta corriente",
      used: "Desde ahora se usa esta corriente.",
      forget: "Olvidar la corriente",
      forgotten: "La corriente quedó olvidada.",
      plot: (points, current) =>
        `Velocidad sobre el fondo en cada rumbo, norte arriba: ${points} puntos. ${current}`,
      rings: (step) => `anillos ${step}`,
      why: {
        "": "",
        "too few samples": "Aún pocas posiciones: siga con el acelerador fijo.",
        "headings too close": "Siga girando: al menos 90°, mejor 180° o más.",
        "only two headings": "Solo dos rumbos hasta ahora: lleve un tercero, bien aparte de los dos.",
        "too uncertain": "Muy incierto: gire más y más despacio, con el acelerador fijo.",
        "no single current":
          "Esto no cuadra con una sola corriente. Deje fijo el acelerador y empiece de nuevo.",
        "legs not opposite":
          "Dos tramos deben llevarse en rumbos opuestos. Lleve un tercero, bien separado de ambos.",
      },
    },

    steering: {
      title: "Rumbo",
      what: "Qué rumbo llevar para hacer una derrota, con la corriente conocida.",
      track: "Derrota sobre el fondo",
      heading: (heading) => `Lleve ${heading}`,
      made: (speed, water) => `Hace ${speed} sobre el fondo con ${water} por el agua.`,
      unknown: "No se conoce corriente. Búsquela primero; mientras, lleve la derrota misma y vigile.",
      compass: "Rumbos verdaderos: cuente con la declinación y el desvío de su compás.",
      why: {
        "": "",
        "swept across":
          "La corriente de través es más rápida que la embarcación: vaya más rápido o elija otra derrota.",
        "swept back": "La corriente en contra es más rápida que la embarcación: vaya más rápido o espere.",
      },
    },

    typing: {
      title: "Escribir velocidad y rumbo",
      what: "Del instrumento de la embarcación. Vale media hora, o hasta que lo diga el receptor de este teléfono.",
      speed: "Velocidad sobre el fondo",
      course: "Rumbo sobre el fondo",
      again: "Sigue igual",
      forget: "Olvidar lo escrito",
    },

    wantedSpeed: {
      title: "Velocidad buscada",
      what: "Por el agua, lo que la cuchara necesita para nadar.",
      low: "No más lento que",
      high: "No más rápido que",
      order: "La más lenta de las dos no debe pasar a la más rápida.",
      back: "Volver a las marcas y a la práctica común",
      backDone: "La velocidad buscada va otra vez según marcas y práctica común.",
    },

    howTo: {
      title: "Ajustes de Ritmo",
      window: "Promedio de",
      seconds: (n) => `${n}\u00a0s`,
      windowWhy: "Uno más largo se mueve menos y llega más tarde. Con mar, 20 s o más.",
      aloud: "Decir en voz alta velocidad y golpes",
      yes: "Sí",
      no: "No",
      noVoice:
        "Este teléfono no tiene voz propia en este idioma, así que afuera no se puede decir nada en voz alta.",
      voice: (name) => `Con la voz «${name}», que está en este teléfono.`,
      trySaying: "Decir algo",
      sample: "Así suena",
      awake: "Dejar la pantalla encendida mientras hay una salida",
      awakeCost:
        "Una pantalla encendida y el receptor vacían muchos teléfonos en cuatro a ocho horas (de memoria): lleve una batería externa, y que lo haga un solo teléfono.",
      awakeNow: {
        yes: "La pantalla se mantiene encendida ahora.",
        no: "La pantalla no se mantiene encendida ahora.",
      },
      awakeNever:
        "Este navegador no puede mantener encendida la pantalla: ajústelo en los ajustes del teléfono.",
    },

    aloud: {
      knots: (speed) => `${speed} nudos`,
      beat: (beat) => `Golpes ${beat}`,
    },
  },
};
