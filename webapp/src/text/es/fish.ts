/** Palabras de Peces. Los números llegan ya escritos, con sus unidades. */
import type { Verdict as Kept } from "../../desk/chill.gen";
import type { fish as en } from "../en/fish";

const practice = "práctica común, sin fuente";

const newYork = "New York State DEC, best practices";

const keptWords: { [V in Kept]: string } = { kept: "probable", perhaps: "quizás", missed: "no se cumple" };

export const fish: typeof en = {
  fish: {
    deck: "Viene un pez",
    up: "Pez arriba",
    upWhat: "subir, juzgar, cuidar",
    practice: `Donde no se nombra fuente: ${practice}.`,
    source: (source) => `Fuente: ${source}`,
    locked:
      "Los tiempos siguen con el teléfono bloqueado o la aplicación cerrada. Un teléfono bloqueado no puede sonar: mire aquí. Van por el reloj del teléfono.",
    inHand: "Entre manos",
    goOn: (what) => `Seguir: ${what}`,
    steps: {
      land: "Subirlo",
      measure: "Medirlo",
      judge: "¿Se puede guardar?",
      bleed: "Desangrarlo",
      slush: "Al agua con hielo",
      release: "Soltarlo",
    },
    next: "Sigue",
    done: "Listo",
    someFish: "Un pez",
    oneFish: (species, length) => [species, length].filter(Boolean).join(" de "),
    whose: (what, person) => (person ? `${what}, ${person}` : what),
    notHere: "No hay salida en curso: esto queda en este teléfono y no se anota.",

    land: {
      drawing:
        "Un pez con la línea recta junto a la embarcación, una red bajo su cabeza, todos los demás apartados",
      advice: [
        { what: "Recoja parejo: sin bombear, sin aflojar." },
        { what: "Timón: adelante muy despacio, derecho." },
        { what: "Uno lleva la red, la cabeza primero. Todos los demás, apartados." },
        { what: "Guantes. Ni una vuelta de alambre en la mano." },
        { what: "Ojo con el segundo anzuelo y la cuchara: pinzas, no dedos." },
        { what: "Red de goma o sin nudos", source: newYork },
      ],
      gotOff: "Se soltó",
      mistake: "No hay pez",
      gone: "Anotado: se soltó.",
      since: (time) => `${time} desde que subió`,
    },

    measure: {
      drawing:
        "Un pez tendido sobre una regla de medir: la boca cerrada contra el tope, los dos lóbulos de la cola apretados juntos, medido en línea recta",
      advice: ["Boca cerrada", "Cola apretada", "Línea recta, no sobre la panza"],
      source: "Largo total: 50 CFR 600.10; Atlantic States Marine Fisheries Commission, Addendum III",
      length: "Largo total",
      none: "aún no",
      species: "Especie",
      out: "Ahora fuera del agua",
      outFor: (time) => `Fuera del agua desde hace ${time}`,
      back: "Otra vez en el agua",
      outWhy: "Manos mojadas, tabla mojada. O mídalo en la red, en el agua.",
      letGo: "Soltarlo",
      first: "Primero ponga el largo: − y +, o toque el número.",
    },

    judge: {
      waters: "¿En qué aguas está?",
      whose: "¿De quién es el pez?",
      whoseWhy: "De quien lo pescó. En muchos lugares un pez no puede ir al cupo de otro: pregunte.",
      me: "Yo",
      unnamed: "Sin nombre",
      verdicts: {
        keep: "Se puede guardar",
        release: "Suéltelo",
        unknown: "Sin regla: suéltelo",
      },
      unknownWhy: (species, waters) =>
        `Aquí no hay regla para ${species} en estas aguas: ${waters}. Sin regla vuelve al agua, o decide el patrón.`,
      master: "El patrón dice: guardar",
      reasons: {
        "no rule": () => "Aquí no hay regla para este pez.",
        "not to be fished for": () => "Aquí ni siquiera se permite pescarlo.",
        "out of season": (_limit, _by, opens) => `Fuera de temporada. Abre el ${opens}.`,
        "too short": (limit, by) => `Demasiado corto por ${by}: desde ${limit}.`,
        "too long": (limit, by) =>
          by
            ? `Demasiado largo por ${by}: hasta ${limit}.`
            : `Demasiado largo: con ${limit} exactos también vuelve al agua.`,
        "none may be kept": () => "No se puede guardar ninguno.",
        "bag of the person full": () => "El cupo está completo.",
        "bag of the boat full": () => "El cupo de la embarcación está completo.",
      },
      close: (about) => `Tan cerca de un límite que decide la regla de medir (± ${about}). Mídalo otra vez.`,
      again: "Medir otra vez",
      keep: "Guardarlo",
      letGo: "Soltarlo",
      more: (count) => (count < 0 ? "sin límite" : count === 0 ? "el último" : `${count} más después`),
      full: "cupo completo",
      kept: (what) => `Guardado: ${what}.`,
      released: (what) => `Suelto: ${what}.`,
      today: (day) => `Juzgado para el ${day}, por el reloj de este teléfono.`,
      coming: (date) => `Esta regla rige solo desde el ${date}.`,
    },

    bag: {
      title: "El cupo de hoy",
      row: (kept) => (kept === 1 ? "1 guardado" : `${kept} guardados`),
      more: (count) => (count < 0 ? "sin límite" : `${count} más`),
      boat: (kept, more) =>
        `Todos a bordo juntos: ${kept === 1 ? "1 guardado" : `${kept} guardados`}, ${more}`,
      stop: (person) => (person ? `Alto: el cupo de ${person} está completo` : "Alto: el cupo está completo"),
      stopBoat: "Alto: el cupo de la embarcación está completo",
      stopWhat: (species) => `Desde ahora vuelve al agua todo pez de esta especie: ${species}.`,
      closed: (species) => `Ahora no se puede guardar: ${species}`,
      known: "Cuenta lo que sabe este teléfono. Lo que guardan otros cuenta en cuanto sus notas están aquí.",
      forgotten: (what) => `Fuera de la lista: ${what}.`,
    },

    bleed: {
      drawing:
        "La cabeza de un pez: el corte va por detrás de las branquias, hacia abajo, a través de la garganta",
      advice: [
        { what: "Primero un golpe fuerte en la cabeza, y enseguida desángrelo.", source: "Nofima" },
        {
          what: "Corte las branquias, o una arteria principal en la garganta, tan hondo que la sangre corra.",
          source: "FAO, x2590e10",
        },
        {
          what: "No más tarde que 30 minutos después de muerto. Después de 3 horas es como no haberlo desangrado.",
          source: "Olsen y otros 2014, en bacalao",
        },
        {
          what: "Cuchillo: el pez sobre la tabla, guante en la mano que sujeta, corte alejándose de ella. Después, a la vaina.",
        },
      ],
      cut: "Corte hecho",
      bleeding: (time) => `Sangra desde hace ${time}`,
      howLong:
        "Puede sangrar en el agua con hielo: en agua o en aire hay poca diferencia (Nofima). Déjelo 30 minutos antes de destriparlo (Olsen y otros 2014, en bacalao).",
      gut: (time) => `Destripar en ${time}, no antes`,
      gutNow: "Ya se puede destripar",
    },

    slush: {
      drawing: "Una hielera con agua y hielo: el pez cubierto de la cabeza a la cola, la tapa cerrada",
      advice: [
        {
          what: "Agua con hielo: tanta agua de mar como hielo, revuelta, sobre todo el pez.",
          source: "UF/IFAS",
        },
        { what: "Revuelva de vez en cuando; la tapa cerrada, a la sombra." },
        {
          what: "El agua con hielo enfría, el hielo conserva: ya frío, escúrralo y póngalo en hielo.",
          source: "UC Davis seafood list, mensajes",
        },
        { what: "Un pez destripado o limpio no vuelve a la salmuera.", source: "UF/IFAS" },
      ],
      inNow: "Ya en agua con hielo",
      inFor: (time) => `En agua con hielo desde hace ${time}`,
      cold: (temperature, time, low, high) =>
        `La parte más gruesa, a ${temperature} cerca de ${time} después de entrar (de ${low} a ${high}).`,
      coldIn: (time) => `Muy probablemente lo está en ${time} más.`,
      coldNow: "Muy probablemente ya lo está.",
      never: (temperature) => `La parte más gruesa nunca llega a ${temperature} en esta agua con hielo.`,
      limits: {
        "in ice": (within, verdict) =>
          `En hielo a más tardar ${within} después de muerto: ${keptWords[verdict]}`,
        chilled: (within, verdict) => `Frío a más tardar ${within} después de muerto: ${keptWords[verdict]}`,
      },
      estimate:
        "Una estimación: cuánto calor quita el agua con hielo se juzga por tanques publicados, el contorno es el de un pez mediano, y un pez no es una barra sin fin. Un termómetro en la parte más gruesa sabe más.",
      stricter:
        "Los límites se escribieron para peces que forman histamina, y la lobina rayada no la forma, y para el hielo o el agua que los rodea. Aplicados a la parte más gruesa, como aquí, piden más.",
      bath: "Agua con hielo",
      warmth: "Pez al entrar",
      stir: "Cómo está",
      stirs: {
        "packed in ice": "Entre hielo",
        "still slush": "Agua quieta",
        "stirred slush": "Agua revuelta",
      },
      byPlan: "según el plan de hielo",
      asSea: "como el mar",
      curve: (words) => `Cómo se enfría la parte más gruesa. ${words}`,
      now: "ahora",
      off: "Quitarlo de la lista",
      reset: "Aún no entró: anular la hora",
    },

    release: {
      drawing:
        "Un pez sostenido horizontal en el agua, una mano bajo la panza, otra alrededor de la cola, la cabeza contra la corriente",
      advice: [
        { what: "En el agua: quítele ahí el anzuelo.", source: newYork },
        { what: "Primero, manos mojadas.", source: newYork },
        { what: "Horizontal, sostenido con las dos manos.", source: newYork },
        { what: "Ningún dedo en branquias ni ojos.", source: newYork },
        { what: "Anzuelo muy adentro: corte el líder junto a él.", source: newYork },
        { what: "La cabeza contra la corriente hasta que se vaya nadando solo.", source: newYork },
      ],
      minutes:
        "Cada minuto cuenta: la pelea, el aire y el manejo deciden junto con el calor del agua (Dinkelacker y otros 2025). No hay publicado un límite en el aire para la lobina rayada; lo más corto que se probó fueron 30 s.",
      warm: (now, limit) =>
        `Agua cálida: ${now}. Desde unos ${limit} muchos de los que se sueltan mueren igual. No lo levante del agua; considere dejar de pescarlos.`,
      warmSource: (warm, low, high) =>
        `Con señuelos, por encima de ${warm}: murió el 70 % en agua dulce, el 39 % en agua algo salada, el 2 % a 8 ppt (RMC 1990, por Maryland DNR). De ${low} a ${high}: 6 % (Nelson 1998).`,
      cool: (now) => `Agua puesta en el Pañol: ${now}.`,
      gone: "Se fue nadando",
    },

    rules: {
      title: "Reglas de talla y cupo",
      short: "Reglas",
      caution: (date) =>
        date
          ? `Consulte las reglas locales vigentes: estas son las iniciales, de ${date}.`
          : "Consulte las reglas locales vigentes: estas son las iniciales, sin fecha.",
      cautionOwn: (date) =>
        date
          ? `Consulte las reglas locales vigentes: estas se pusieron en este teléfono, última revisión ${date}.`
          : "Consulte las reglas locales vigentes: estas se pusieron en este teléfono.",
      choose: "Elija las aguas",

      inForce: "El conjunto en uso",
      waters: "Las aguas",
      sets: "Todos los conjuntos",
      rules: (count) => (count === 1 ? "1 regla" : `${count} reglas`),
      addSet: "Un conjunto propio",
      addRule: "Otra regla",
      newSet: "Mis reglas",
      newWaters: "mis aguas",
      setName: "Nombre del conjunto",
      asOf: "Al día de (año, mes, día)",
      removeSet: "Quitar este conjunto",
      removeRule: "Quitar esta regla",
      removed: (what) => `Quitado: ${what}.`,
      ask: "Las reglas locales pueden ser más estrictas, y valen primero. Lo que rige lo dicen las autoridades, no este teléfono.",
      missing: "Las reglas iniciales llegan en cuanto arranca la calculadora.",
      species: "Especie de pez",
      watersOf: "Aguas",
      season: "Temporada",
      allYear: "Todo el año",
      part: "Una parte",
      from: "Primer día",
      to: "Último día",
      month: "mes",
      day: "día",
      min: "Mínimo",
      max: "Máximo",
      noLimit: "ninguno",
      just: (length) => `Un pez de ${length} exactos`,
      kept: "se puede guardar",
      back: "vuelve al agua",
      bagPerson: "Cupo por persona",
      bagBoat: "Cupo de la embarcación",
      unlimited: "Sin límite",
      limited: "Un límite",
      counts: { person: "Peces al día, cada uno", boat: "Peces al día, todos a bordo" },
      noFishing: "Pescarlo",
      allowed: "permitido",
      forbidden: "prohibido",
      gear: "Aparejos",
      note: "Qué más saber",
      source: "Fuente",
      validFrom: "Rige desde (año-mes-día)",
      checkedOn: "Última revisión (año-mes-día)",
      checkedToday: "La revisé hoy",
      own: "Puesta en este teléfono.",
      facts: {
        size: "Talla",
        season: "Temporada",
        bag: "Cupo",
        gear: "Aparejos",
        valid: "Rige desde",
        checked: "Revisada",
      },
      sizes: (min, max) => (min && max ? `${min} ${max}` : min || max || "cualquier talla"),
      from2: (length, itself) => (itself ? `desde ${length}` : `más de ${length}`),
      to2: (length, itself) => (itself ? `hasta ${length}` : `hasta menos de ${length}`),
      days: (from, to) => `del ${from} al ${to}`,
      bags: (count, per) => (per === "person" ? `${count} por persona` : `${count} por embarcación`),
    },

    ice: {
      title: "Hielo para el día",
      short: "Hielo",
      load: "Cargue",
      band: (low, high) => `de ${low} a ${high} nueve de cada diez veces`,
      aboard: "Hielo a bordo",
      asNeeded: "lo que haga falta",
      water: (mass) => `con ${mass} de agua de mar`,
      noWater: "sin agua de mar: peces entre hielo",
      slush: (temperature, salinity) => `Agua con hielo: ${temperature}, sal ${salinity} de 1000`,
      lasts: (low, high) => `Hielo para entre ${low} y ${high}`,
      lastsLong: "Hielo para más de diez días",
      add: (mass, time) => `Agregue ${mass} a más tardar ${time} después de llenar`,
      enough: "Alcanza hasta el final.",
      frozen: (share) =>
        `Agua con hielo muy salada: lo que queda mucho tiempo en ella puede congelarse en parte (${share} de su agua en lo más frío). Use menos agua salada, o saque los peces cuando estén fríos.`,
      full: "No cabe: una hielera más grande, menos agua de mar, o parte de los peces en otro lado.",
      picture: (words) => `La hielera al llenarse. ${words}`,
      iceTo: "hielo hasta aquí",
      allTo: ["con agua", "y peces"],
      curve: (words) => `El hielo que queda, hora por hora. ${words}`,
      left: "hielo restante",
      box: "Hielera",
      boxes: "Hieleras",
      count: "Peces esperados",
      mass: "Peso de uno",
      first: "Primer pez tras",
      last: "Último pez tras",
      hold: "Frío durante",
      air: "Aire a la sombra",
      sun: "Sol en la tapa",
      suns: { shade: "Sombra", some: "Algo", full: "Pleno" },
      lid: "Tapa",
      lids: { white: "Blanca", dark: "Oscura" },
      kind: "Clase de hielo",
      kinds: { block: "Bloque", crushed: "Picado", flake: "Escama", tube: "Tubo" },
      mix: "Agua de mar por hielo",
      mixes: { none: "Nada", half: "La mitad", same: "Lo mismo" },
      sea: (temperature, salinity) => `Mar: ${temperature}, sal ${salinity}. Se pone en el Pañol.`,
      judged:
        "Una estimación por balance de calor. Paredes (±25 %), peces (±10 %), aire (±2 K) y hielo mojado (±5 %) entran en la banda. El sol y la parte que absorbe una tapa son de memoria.",
      boxOf: (name, litres) => `${name}, ${litres} L`,
      names: { small: "Hielera chica", long: "Hielera larga", large: "Hielera grande" },
      memory: "de memoria: mida la suya",
      own: "los suyos",
      name: "Nombre",
      length: "Largo interior",
      width: "Ancho interior",
      height: "Alto interior",
      wall: "Pared",
      material: "Pared de",
      materials: {
        "polyurethane foam": "Espuma de poliuretano",
        "polystyrene foam": "Espuma de poliestireno",
        wood: "Madera",
        plastic: "Plástico, sin espuma",
      },
      empty: "Hielera vacía",
      cooled: "enfriada antes",
      u: "Valor U, si lo da el fabricante",
      byWall: "según la pared",
      another: "Otra como esta",
      remove: "Quitarla",
      edit: "Medidas y paredes",
      removed: (name) => `Quitada: ${name}.`,
    },

    weight: {
      title: "Peso por el largo",
      short: "Peso",
      know: "Conozco",
      byLength: "el largo",
      byMass: "el peso",
      length: "Largo total",
      mass: "Peso",
      girth: "Contorno, parte más gruesa",
      none: "sin medir",
      range: (low, high) => `de ${low} a ${high} nueve de cada diez veces`,
      standard: (mass) => `Un pez en buen estado de ese largo: ${mass} (tres de cada cuatro pesan menos).`,
      byGirth: (mass) =>
        `Largo × contorno² ÷ 800, la fórmula del oficio, da ${mass}. Práctica común, sin fuente; toma el largo hasta la horquilla de la cola, aquí 0,93 del largo total (de memoria).`,
      judged:
        "Solo para lobina rayada. Brown y Murphy 1991, percentil 75, largo total. Peces de un mismo largo se reparten un 12 % alrededor del medio (de memoria).",
    },

    keeping: {
      title: "Cómo se conserva",
      short: "Conservar",
      of: (fish, source) => `${fish} (${source})`,
      what: "Lo que las temperaturas del día le hicieron a un pez. Entre dos de ellas se supone un cambio parejo.",
      at: "Tiempo desde la muerte",
      temperature: "Su temperatura",
      step: (number) => `${number}.`,
      add: "Otra temperatura",
      remove: (number) => `Quitar ${number}`,
      spent: (time, low, high, zero) => `Gastado: tanto como ${time} a ${zero} (de ${low} a ${high})`,
      rate: (times, zero) =>
        `A la última temperatura, su velocidad de deterioro es ${times} veces la de ${zero}.`,
      left: (low, high) => (low === high ? low : `quedan de ${low} a ${high}`),
      gone: "no queda nada",
      yardstick:
        "No se encontró ningún dato para la lobina rayada. El bacalao y el salmón son solo una referencia. Deciden el olor y el aspecto; si duda, tírelo.",
      beyond: (low, high) => `Fuera de ${low} a ${high}, para lo que se hizo la fórmula.`,
      source: "Deterioro a (1 + 0,1 T)² respecto de 0 °C: FAO Fisheries Technical Paper 348.",
    },

    time: {
      days: (days) => `${days} días`,
      hours: (hours, minutes) => (minutes === "0" ? `${hours} h` : `${hours} h ${minutes} min`),
      minutes: (minutes) => `${minutes} min`,
      seconds: (seconds) => `${seconds} s`,
    },
  },
};
