/** Palabras de los instrumentos de la embarcación y de las alarmas. Los números llegan ya escritos. */
import type { instruments as en } from "../en/instruments";

export const instruments: typeof en = {
  instruments: {
    title: "Instrumentos",
    offer: (what) =>
      `Los instrumentos de la embarcación dicen: ${what.join(", ")}. ¿Se guía la aplicación por ellos?`,
    offerBrief: "Se oyen instrumentos",
    use: "Usarlos",
    not: "No usarlos",
    used: "La aplicación se guía por los instrumentos de la embarcación.",
    depth: (depth) => `profundidad ${depth}`,
    speed: (speed) => `velocidad ${speed}`,
    warmth: (warmth) => `agua ${warmth}`,
    lost: (parts, age) => `No llega desde hace ${age}: ${parts.join(", ")}.`,
    lostDepth: (depth) => `Fondo queda en ${depth}: póngalo según la sonda.`,
    lostSpeed: "Velocidad por posiciones y corriente, menos segura.",
    lostSpeedToo: (speed) => `Velocidad queda en ${speed}: póngala a mano.`,
    stands: "La corredera no gira. ¿Algas?",
    drags: "La corredera gira muy despacio. ¿Algas?",
    onBottom: (rods) =>
      `Probablemente en el fondo: ${rods.length > 1 ? "cañas" : "caña"} ${rods.join(", ")}.`,
    outside: {
      fast: "Demasiado rápido desde hace un minuto.",
      slow: "Demasiado lento desde hace un minuto.",
    },
    quiet: "Callar 10 min",
    none: "No se oyen instrumentos. El servidor de la embarcación los oye donde se le dice (wirewake serve --instruments); sin ellos todo se pone a mano, como siempre.",
    goBy: "La aplicación se guía por",
    takes: {
      depth: "Profundidad: Fondo de Líneas",
      speed: "Velocidad por el agua",
      warmth: "Temperatura del agua",
    },
    now: "Se oye ahora",
    from: (from) => `de ${from}`,
    depthOf: {
      surface: "Profundidad",
      transducer: "Profundidad bajo la sonda",
      keel: "Profundidad bajo la quilla",
    },
    short:
      "Se cuenta desde allí, así que hay más agua. Al servidor se le puede decir cuánta (--transducer, --keel).",
    echo: (depth) => `La sonda leyó ${depth}: no se toma por el fondo.`,
    differs: "Otro dice otra cosa.",
    jumped: "Dio un salto: mírelo.",
    names: {
      waterSpeed: "Velocidad que marca la corredera",
      waterTemperature: "Temperatura del agua",
      heading: "Proa",
      groundSpeed: "Velocidad sobre el fondo",
      groundCourse: "Rumbo sobre el fondo",
    },
    wheel: (factor, zero) => `Lo que marca la corredera se multiplica por ${factor}, y se le suman ${zero}.`,
    forget: "Olvidar lo que enseñó la corredera",
    forgotten: "Se olvidó lo que enseñó la corredera.",
    care: "Los instrumentos pueden fallar, y nada prueba quién habla. No sirve para navegar: mire afuera, y a los instrumentos mismos.",
    steer: (heading) => `Proa ${heading}`,
    by: "por la corredera de la embarcación y las posiciones",
    ago: (age) => `del receptor de la embarcación${age ? `, hace ${age}` : ""}`,
  },
  alarms: {
    title: "Alarmas",
    sound: "Sonar y vibrar",
    voice: "Decirlo en voz alta",
    speed: "Avisar cuando la velocidad esté un minuto fuera de la buscada",
    said: {
      rise: "Bajo adelante",
      bottom: "Señuelo en el fondo",
      lost: "Instrumento perdido",
      wheel: "Corredera",
      speed: "Velocidad",
    },
    overboard: {
      what: "Hay alguien en el agua",
      since: (time) => `hace ${time}`,
      several: (count) => `${count} avisos`,
      show: "Ver",
    },
    try: "Oírlas",
    locked:
      "Suenan con la aplicación abierta y la pantalla encendida. Un teléfono bloqueado, o con otra aplicación delante, calla.",
  },
};
