/** Palabras de Peces. Los números llegan ya escritos, con sus unidades. */

import { writtenIn } from "../../phone/region";
import type { fish as en } from "../en/fish";
import { ice } from "./ice";
import { rules } from "./rules";

const written = writtenIn("es");

const practice = "práctica común, sin fuente";

const newYork = "New York State DEC, mejores prácticas";

export const fish: typeof en = {
  fish: {
    deck: "Viene un pez",
    practice: `Donde no se nombra fuente: ${practice}.`,
    source: (source) => `Fuente: ${source}`,
    locked:
      "Los tiempos siguen con el teléfono bloqueado o la aplicación cerrada. Un teléfono bloqueado no puede sonar: mire aquí. Van por el reloj del teléfono.",
    left: (count) =>
      count === 1
        ? "Un pez de hace rato ya no está en curso."
        : `${count} peces de hace rato ya no están en curso.`,
    noneInHand:
      "Ningún pez en curso. Cuando suba uno, toque «Pez arriba»: aquí viene cada paso, de la borda al hielo.",
    inHand: "En curso",
    goOn: (what) => `Seguir: ${what}`,
    steps: {
      land: "Subirlo",
      measure: "Medirlo",
      judge: "¿Se puede guardar?",
      bleed: "Desangrarlo",
      slush: "A la mezcla de hielo",
      release: "Devolverlo",
    },
    next: "Sigue",
    done: "Listo",
    someFish: "Un pez",
    oneFish: (species, length) => [species, length && `de ${length}`].filter(Boolean).join(" "),
    whose: (what, person) => (person ? `${what}, ${person}` : what),
    elsewhere: (who, what) => `${who} ya anotó un pez de esta picada: ${what}. ¿Es el mismo?`,
    another: "No, es otro pez",

    land: {
      drawing:
        "Un pez con la línea recta junto a la borda, una red de mano bajo su cabeza, y todos los demás apartados",
      advice: [
        { what: "Recoja parejo: sin bombear, sin aflojar." },
        { what: "Uno maneja la red de mano, primero la cabeza. Los demás, apartados." },
        { what: "Guantes. Ni una vuelta de alambre en la mano." },
        { what: "Cuidado con el segundo anzuelo y la cuchara: pinzas, no dedos." },
        { what: "Una red de goma o sin nudos", source: newYork },
      ],
      helm: {
        unknown: "Timón: derecho y despacio: las otras líneas no deben quedar en el fondo.",
        unset:
          "En este teléfono nadie ha puesto la profundidad ni las líneas. El teléfono en que están puestas dice cuán despacio puede ir.",
        free: "Timón: avante muy despacio, derecho. Ninguna otra línea llega al fondo.",
        freeBut: (rods) =>
          `Timón: avante muy despacio, derecho. Según las notas también hay un pez en ${rods}: si se soltó, esa línea puede llegar al fondo. Ninguna otra llega.`,
        notSlower: (speed, rod, order) =>
          `Timón: derecho, a no menos de ${speed} por el agua, o ${rod} queda en el fondo. Para ir más despacio, recoja primero: ${order}.`,
        already: (rod, order) =>
          `Timón: derecho, no más despacio que ahora: ${rod} quizá ya está en el fondo. Recójala primero${order && `, luego ${order}`}.`,
      },
      gotOff: "Se soltó",
      mistake: "No era un pez",
      gone: "Anotado: se soltó.",
      whichRod: "Hay varios picados. ¿Cuál es este?",
      hookup: (rod, time, who) => [rod ?? "Caña sin indicar", time, who].filter(Boolean).join(", "),
      since: (time) => `${time} desde que llegó arriba`,
    },

    measure: {
      drawing:
        "Un pez tendido sobre una regla: boca cerrada contra el tope, los dos lóbulos de la cola juntos, medido en línea recta",
      advice: ["Boca cerrada", "Cola apretada", "Línea recta, no por encima del vientre"],
      source: "Largo total: 50 CFR 600.10; Atlantic States Marine Fisheries Commission, Addendum III",
      length: "Largo total",
      none: "aún no",
      species: "Especie",
      out: "Ya está fuera del agua",
      outFor: (time) => `Fuera del agua hace ${time}`,
      back: "Otra vez en el agua",
      outWhy: "Manos mojadas, tabla mojada. O mídalo en la red, dentro del agua.",
      letGo: "Devolverlo",
      first: "Primero dé el largo: − y +, o toque el número.",
    },

    judge: {
      waters: "¿En qué aguas está?",
      whose: "¿De quién es el pez?",
      whoseWhy: "De quien lo pescó. En muchos lugares un pez no puede contar en el cupo de otro: pregunte.",
      me: "Mío",
      unnamed: "Sin nombre",
      verdicts: {
        keep: "Se puede guardar",
        release: "Devuélvalo",
        unknown: "Sin regla: devuélvalo",
        "look it up": "Consúltela hoy",
        "how many fish": "¿Cuántas personas pescan?",
      },
      byOldRule: (verdict) => `Esa regla vieja decía: ${verdict.toLowerCase()}.`,
      statesOwn: "Este es el plan de toda la costa. Su estado pone reglas propias, y van primero.",
      unknownWhy: (species, waters) =>
        `Aquí no hay regla para esta especie (${species}) en estas aguas: ${waters}. Sin regla se devuelve, o decide el patrón.`,
      master: "El patrón dice: se guarda",
      reasons: {
        "no rule": () => "Aquí no hay regla para él.",
        "not to be fished for": () => "Aquí ni siquiera se permite pescarlo.",
        "out of season": (_limit, _by, opens) => `Fuera de temporada. Abre el ${opens}.`,
        "too short": (limit, by, _opens, included) =>
          by
            ? `Le faltan ${by}: ${included ? `desde ${limit}` : `más de ${limit}`}.`
            : `Muy corto: justo ${limit} también se devuelve.`,
        "too long": (limit, by, _opens, included) =>
          by
            ? `Le sobran ${by}: ${included ? `hasta ${limit}` : `menos de ${limit}`}.`
            : `Muy largo: debe medir menos de ${limit}, y justo ${limit} también se devuelve.`,
        "none may be kept": () => "No se puede guardar ninguno.",
        "bag of the person full": () => "El cupo está lleno.",
        "bag of the boat full": () => "El cupo de la embarcación está lleno.",
      },
      close: (about) =>
        `Tan cerca de un límite que decide la medida exacta (±\u202f${about}). Mida otra vez.`,
      again: "Medir otra vez",
      keep: "Guardarlo",
      letGo: "Devolverlo",
      more: (count) => (count < 0 ? "sin límite" : count === 0 ? "el último" : `${count} más después`),
      full: "cupo lleno",
      kept: (what) => `Guardado: ${what}.`,
      released: (what) => `Devuelto: ${what}.`,
      today: (day) => `Juzgado para el ${day}, por el reloj de este teléfono.`,
    },

    aged: {
      whys: {
        "date not readable": (date) => `«${date}» no es una fecha que se pueda leer: consúltela hoy`,
        "not in force yet": (date) => `Rige solo desde ${date}: consúltela hoy`,
        "past its date": (date) => `Vigente hasta ${date}: consúltela hoy`,
        "not checked for a year": (date) => `Consultada ${date}: consúltela hoy`,
        "never checked": () => "Nunca consultada: consúltela hoy",
      },
      how: "Las reglas cambian dentro de un año. Consúltela con la agencia del estado, en su folleto o por radio a tierra, antes de guiarse por ella.",
      holds: "La consulté: sigue igual",
      changed: "Ha cambiado",
      held: "Anotado: consultada hoy.",
    },

    share: {
      save: "Guardar este juego en un archivo",
      load: "Cargar un juego de un archivo",
      loaded: (names) => `Cargado, y en uso ahora: ${names}.`,
      notRules: "Este archivo no contiene reglas. Elija uno que se guardó aquí como juego de reglas.",
      later: "Este archivo es de una versión posterior de la aplicación. Actualícela y cárguelo otra vez.",
      broken: "Algo de este archivo no se puede leer, y no se tomó nada de él. Pida que lo guarden otra vez.",
      give: "Darlo a la tripulación",
      given: "La tripulación lo tiene",
      offered: "De la tripulación",
      take: (name) => `Tomar: ${name}`,
      taken: (name) => `Tomado, y en uso ahora: ${name}.`,
    },

    howMany: {
      title: "¿Cuántos pescan hoy?",
      now: (count) => (count === 1 ? "Hoy pesca 1" : `Hoy pescan ${count}`),
      unsaid: "diga cuántos pescan",
      why: "Cada uno tiene su cupo. Con nombres es mejor: se dice de quién es el cupo lleno.",
    },

    bag: {
      title: "El cupo de hoy",
      row: (kept) => (kept === 1 ? "1 guardado" : `${kept} guardados`),
      more: (count) => (count < 0 ? "sin límite" : count === 1 ? "1 más" : `${count} más`),
      boat: (kept, more) => `Todos a bordo juntos: ${kept} ${kept === 1 ? "guardado" : "guardados"}, ${more}`,
      stop: (person) => (person ? `Alto: el cupo de ${person} está lleno` : "Alto: el cupo está lleno"),
      stopBoat: "Alto: el cupo de la embarcación está lleno",
      stopShort: (species) => `Alto: ${species}`,
      stopWhat: (species) => `Desde ahora se devuelve cada pez de esta especie: ${species}.`,
      stopTheirs: (species) => `El siguiente pez suyo de esta especie se devuelve: ${species}.`,
      closed: (species) => `Ahora no se puede guardar ninguno: ${species}`,
      known: "Cuenta lo que sabe este teléfono. Lo que guardan otros cuenta cuando sus notas están aquí.",
      forgotten: (what) => `Fuera de la lista: ${what}.`,
    },

    bleed: {
      drawing: "La cabeza de un pez: el corte pasa detrás de las branquias, hacia abajo por la garganta",
      advice: [
        { what: "Primero un golpe fuerte en la cabeza, y enseguida a desangrar.", source: "Nofima" },
        {
          what: "Corte las branquias, o una arteria principal en la garganta, lo bastante hondo para que corra.",
          source: "FAO, x2590e10",
        },
        {
          what: "No más tarde que 30 minutos después de muerto. Después de 3 horas es como sin desangrar.",
          source: "Olsen y otros 2014, en bacalao",
        },
        {
          what: "Cuchillo: el pez sobre la tabla, guante en la mano que sujeta, corte hacia afuera. Después, a la funda.",
        },
      ],
      cut: "Corte hecho",
      bleeding: (time) => `Desangrando hace ${time}`,
      howLong:
        "Puede desangrarse en la mezcla: en agua o en aire da casi lo mismo (Nofima). Déjelo 30 minutos antes de eviscerarlo (Olsen y otros 2014, en bacalao).",
      gut: (time) => `Eviscérelo en ${time} como muy pronto`,
      gutNow: "Ya se puede eviscerar",
    },

    slush: {
      drawing: "Una nevera con mezcla: el pez está cubierto de la cabeza a la cola, la tapa cerrada",
      advice: [
        {
          what: "Mezcla: tanta agua de mar como hielo, revuelta, sobre el pez entero.",
          source: "UF/IFAS",
        },
        { what: "Revuelva de vez en cuando; la tapa cerrada, a la sombra." },
        {
          what: "La mezcla enfría, el hielo conserva: ya frío, escúrralo y póngalo en hielo.",
          source: "UC Davis, lista de pescados, mensajes",
        },
        { what: "Un pez eviscerado o limpio no vuelve a la salmuera.", source: "UF/IFAS" },
      ],
      inNow: "Ya está en la mezcla",
      inFor: (time) => `En la mezcla hace ${time}`,
      cold: (temperature, time, low, high) =>
        `La parte más gruesa a ${temperature} cerca de ${time} después de entrar (${low} a ${high}).`,
      coldIn: (time) => `Muy probablemente dentro de ${time}.`,
      coldNow: "Muy probablemente ya.",
      never: (temperature) => `La parte más gruesa nunca llega a ${temperature} en esta mezcla.`,
      limits: {
        "in ice": (within, verdict) => `En hielo a menos de ${within} de la muerte: ${keptWords[verdict]}`,
        chilled: (within, verdict) => `Frío a menos de ${within} de la muerte: ${keptWords[verdict]}`,
      },
      estimate:
        "Una estimación: cuánto calor toma la mezcla se juzga por tanques publicados, el contorno es el de un pez medio, y un pez no es una barra sin fin. Un termómetro en la parte más gruesa sabe más.",
      stricter:
        "Los límites se escribieron para peces que forman histamina, y la lobina rayada no la forma, y para el hielo o el agua alrededor. Comparados con la parte más gruesa, como aquí, piden más.",
      bath: "Mezcla",
      warmth: "El pez al entrar",
      stir: "Cómo está",
      stirs: {
        "packed in ice": "Entre hielo",
        "still slush": "Mezcla quieta",
        "stirred slush": "Mezcla revuelta",
      },
      byPlan: "como dice el plan de hielo",
      asSea: "como el mar",
      curve: (words) => `Cómo se enfría la parte más gruesa. ${words}`,
      now: "ahora",
      off: "Quitarlo de la lista",
      reset: "Aún no está: poner el tiempo a cero",
    },

    release: {
      drawing:
        "Un pez sostenido a nivel en el agua, una mano bajo el vientre, otra en la cola, la cabeza contra la corriente",
      advice: [
        { what: "En el agua: quítele el anzuelo ahí.", source: newYork },
        { what: "Primero mójese las manos.", source: newYork },
        { what: "A nivel, sostenido con las dos manos.", source: newYork },
        { what: "Sin dedos en las branquias ni en los ojos.", source: newYork },
        { what: "Anzuelo muy adentro: corte el líder bien cerca.", source: newYork },
        { what: "La cabeza contra la corriente hasta que se vaya solo.", source: newYork },
      ],
      minutes:
        "Cada minuto cuenta: la pelea, el aire y el manejo deciden junto con la temperatura del agua (Dinkelacker y otros 2025). No hay límite publicado en el aire para la lobina rayada; lo más corto que se probó fue 30 s.",
      warm: (now, limit) =>
        `Agua tibia: ${now}. Desde unos ${limit} muchos de los devueltos mueren igual. No lo saque del agua; piense en dejar de pescarlos.`,
      warmSource: (warm, low, high) =>
        `Con señuelos, por encima de ${warm}: murió el 70 % en agua dulce, el 39 % en agua poco salada, el 2 % a 8 ppt (RMC 1990, según Maryland DNR). De ${low} a ${high}: 6 % (Nelson 1998).`,
      cool: (now, heard) => `Agua ${heard ? "según los instrumentos" : "según el Pañol"}: ${now}.`,
      gone: "Se fue nadando",
    },

    rules,

    ice,

    weight: {
      title: "Peso por el largo",
      short: "Peso",
      know: "Conozco",
      byLength: "el largo",
      byMass: "el peso",
      length: "Largo total",
      mass: "Peso",
      girth: "Contorno, parte más gruesa",
      none: "sin tomar",
      range: (low, high) => `de ${low} a ${high} nueve de cada diez veces`,
      standard: (mass) => `Un pez en buen estado de ese largo: ${mass} (tres de cada cuatro pesan menos).`,
      byGirth: (mass) =>
        `Largo × contorno² ÷ 800, la fórmula del oficio, da ${mass}. ${cap(practice)}; toma el largo hasta la horquilla de la cola, aquí ${written(0.93)} del largo total (de memoria).`,
      judged:
        "Solo para lobina rayada. Brown y Murphy 1991, percentil 75, largo total. Peces de un mismo largo se apartan un 12 % de la mitad (de memoria).",
    },

    keeping: {
      title: "Cómo se conserva",
      short: "Conserva",
      of: (fish, source) => `${fish} (${source})`,
      what: "Lo que las temperaturas del día le hicieron a un pescado. Entre dos de ellas se toma un cambio parejo.",
      at: "Tiempo desde la muerte",
      temperature: "Su temperatura",
      step: (number) => `${number}.`,
      add: "Otra temperatura",
      remove: (number) => `Quitar ${number}`,
      spent: (time, low, high, zero) => `Gastado: tanto como ${time} a ${zero} (${low} a ${high})`,
      rate: (times, zero) => `A la última temperatura se echa a perder a ${times} veces el ritmo de ${zero}.`,
      left: (low, high) => (low === high ? `queda ${low}` : `quedan ${low} a ${high}`),
      gone: "no queda nada",
      yardstick:
        "No se encontró cifra para la lobina rayada. Bacalao y salmón son solo una vara de medir. Deciden el olor y el aspecto; si duda, tírelo.",
      beyond: (low, high) => `Fuera de ${low} a ${high}, para lo que se hizo la fórmula.`,
      source: `Deterioro a (1 + ${written(0.1)} T)² respecto de 0 °C: FAO Fisheries Technical Paper 348.`,
    },

    time: {
      days: (days) => `${days} días`,
      hours: (hours, minutes) =>
        minutes === "0" ? `${hours}\u00a0h` : `${hours}\u00a0h ${minutes}\u00a0min`,
      minutes: (minutes) => `${minutes}\u00a0min`,
      seconds: (seconds) => `${seconds}\u00a0s`,
    },
  },
};

const keptWords = { kept: "probable", perhaps: "quizás", missed: "no cumplido" };

function cap(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
