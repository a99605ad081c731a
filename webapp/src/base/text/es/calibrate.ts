/** Palabras de lo que enseñan los toques. Los números llegan ya escritos, con sus unidades. */
import type { calibrate as en } from "../en/calibrate";

export const calibrate: typeof en = {
  calibrate: {
    title: "Lo que dicen los toques",
    link: (used, odd) =>
      `${used === 0 ? "Toques: ninguno aún" : used === 1 ? "1 toque cuenta" : `${used} toques cuentan`}${
        odd > 0 ? (odd === 1 ? ", 1 contradice" : `, ${odd} contradicen`) : ""
      }`,
    howSure: "Qué tan seguro",
    gathering: "Se están reuniendo de nuevo los toques de todas las salidas. Lo aprendido sigue valiendo.",
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
      alone: "Se aprendió de él: no hay otro con que compararlo",
      "cannot be computed": "Con él no se puede calcular: no cuenta",
      untold: "No dice cómo estaba armada la caña, o desde entonces nombra otra caña: no cuenta",
      uncounted: "Sin contar",
      deeper: (off) => `Según este, la línea iba ${off} más hondo de lo que dicen todos los demás.`,
      shallower: (off) => `Según este, la línea iba ${off} menos hondo de lo que dicen todos los demás.`,
      shouldHaveTouched: (off) => `Según todos los demás, la línea iba ${off} más hondo que el agua de aquí.`,
    },
    lesson: {
      once: "Dos veces seguidas: cuenta una.",
      learned: "Toque aprendido.",
      off: "Ahora Líneas no se guía por los toques.",
      little: (rod) => `Aprendido: concuerda; la caña ${rod} sigue casi igual.`,
      deeper: (rod, by) => `Aprendido: la caña ${rod} va ${by} más hondo de lo pensado.`,
      shallower: (rod, by) => `Aprendido: la caña ${rod} va ${by} más arriba de lo pensado.`,
    },
    from: (names) => `Aprendido de: ${names.join(", ")}.`,
    guess: (who) =>
      `${who} lo anotó con la profundidad con la que empieza la aplicación. Aquí no mueve ninguna línea hasta que alguien ponga su profundidad, o la tripulación lo tome.`,
    guests: (who) =>
      `${who} lo anotó. Aquí no mueve ninguna línea hasta que alguien de la tripulación lo tome, o haya sentido lo mismo.`,
    leavePhone: (who) => `No contar lo que sintió ${who}`,
    countPhone: (who) => `Aquí no se cuenta: ${who}. Volver a contarlo`,
    takeGuess: "Esa era la profundidad: tomarlo",
    contradicts: "Este contradice a los demás.",
    contradictingOne: "Un toque contradice a los demás",
    contradicting: (touch) => `Un toque contradice a los demás: ${touch}.`,
    contradictsWhy:
      "Puede ser una caña, una profundidad o un largo equivocados, algas o una loma. Cuenta menos; táchelo si está mal.",
    look: "Ver",
    lineDrag: (mid, low, high) => `Esta línea frena ${mid} veces lo calculado (de ${low} a ${high}).`,
    next: "Qué diría más",
    tryIt: (rod, lineOut, drail, now, then) =>
      `${rod}: deje que apenas toque con unos ${lineOut} fuera ${drail ? `y plomo de ${drail}` : "y sin plomo"}. ${
        now
          ? `Eso llevaría el ± de todas las cañas de ${now} a ${then}.`
          : `El ± de todas las cañas quedaría cerca de ${then}.`
      }`,
    tryReading: {
      angle: (rod, then) =>
        `${rod}: mire a lo largo del alambre como está. El ± de todas las cañas quedaría en unos ${then}.`,
      entry: (rod, then) =>
        `${rod}: diga dónde entra su alambre al agua. El ± de todas las cañas quedaría en unos ${then}.`,
      pull: (rod, then) => `${rod}: diga cuánto tira. El ± de todas las cañas quedaría en unos ${then}.`,
    },
    learned: (count) => `Aprendido de ${count}: toques, y lo que se enseñó.`,
    afterAll: (count) => `Tras aprender de ${count}`,
    nextHow: (bottom) =>
      `En ${bottom} de agua, solo sobre fondo limpio: largue línea poco a poco hasta que apenas toque, anote el toque, recoja línea. A un alambre enganchado lo tira toda la embarcación.`,
    depths: "Profundidades en Líneas",
    withTouches: "Con lo que dicen los toques",
    withoutTouches: "Como se calculan antes de todo toque",
    all: "Todos",
    how: "Un toque se anota con la línea, el plomo, la velocidad y la profundidad del agua como están en Líneas; póngalos primero. Los toques de todos los teléfonos y salidas que hay en este teléfono cuentan juntos, los más viejos un poco menos. Lo aprendido de un alambre o señuelo vale para todos los de su nombre, y la mitad para los otros.",
  },
};
