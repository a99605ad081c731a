/** Qué es la aplicación, y las precauciones de siempre. */
import type { about as en } from "../en/about";

export const about: typeof en = {
  about: {
    title: "Qué es y fuentes",
    about: "Qué se calcula, y con qué",
    languageLater:
      "Las palabras del idioma elegido aún no están en este teléfono. Con señal, abra la aplicación otra vez: llegan y se quedan.",
    knots: "Las velocidades van siempre en nudos. Líneas las toma por el agua, no sobre el fondo.",
    version: {
      title: "Una versión nueva",
      look: "Buscar una versión nueva",
      looking: "Preguntando al servidor de la embarcación",
      none: "Es la más nueva que tiene el servidor de la embarcación.",
      unreachable: "El servidor de la embarcación no está al alcance.",
      there:
        "Hay una versión más nueva en este teléfono; con un toque queda en uso. No se pierde nada de lo anotado.",
      use: "Usarla ahora",
    },
    sections: [
      {
        title: "Qué se calcula",
        paragraphs: [
          "Para cada caña se resuelve la forma de la línea entre el señuelo y la punta, del equilibrio entre peso, resistencia del agua y tensión, tramo por tramo: líder, alambre, reserva y la parte que cuelga en el aire. La línea fuera se mide desde la punta de la caña.",
          "Todo se calcula en este teléfono; para eso no se le pregunta a ningún servidor.",
        ],
      },
      {
        title: "Qué se manda, y adónde",
        paragraphs: [
          "Esta aplicación habla con un solo servidor: el de la embarcación, de donde se cargó. De allí se carga, y allí busca versiones nuevas. A nadie más se le dice nada: no hay publicidad ni nada que cuente visitas.",
          "Un teléfono que no está a bordo no manda nada de lo anotado ni de lo escrito. El que pide subir a bordo manda el nombre que se le puso.",
          "Un teléfono a bordo manda lo que se anota: las entradas con su hora y, si el teléfono la tenía, su posición; las fotos sin sus datos ocultos; salidas, marcas, listas, reglas y los datos de la embarcación si se dieron a la tripulación; además su nombre, y qué le falta para estar listo para salir. El servidor lo da a los teléfonos a bordo: los del patrón y los tripulantes tienen todo, el de un invitado lo de una salida. Anota cuándo estuvo cada teléfono por última vez.",
          "El servidor de la embarcación guarda todo eso en su disco, y lo pasa al servidor de su dueño en tierra si se lo configuró así.",
          "Sus aparejos, lo que se les enseñó a las líneas, sus ajustes, el plan de salida y dónde está usted ahora quedan en este teléfono, salvo lo que lleva una nota. Un archivo, un plan o las palabras para la radio salen cuando usted mismo los entrega.",
          "La lectura en voz alta la hace la voz del propio teléfono; algunos traen la suya de la red.",
        ],
      },
      {
        title: "El ±",
        paragraphs: [
          "Va del 5 al 95 de cada cien, si la velocidad, la línea fuera, la altura de la punta, la resistencia, el roce, y el peso, la resistencia y la sustentación del señuelo se conocen solo hasta cierto punto. Hasta qué punto es un juicio de memoria, mientras no lo reemplacen sus propios toques de fondo. En «Qué tan seguro», en el Pañol, están todos, para ajustarlos.",
        ],
      },
      {
        title: "Fuentes",
        paragraphs: [
          "Resistencia de una línea redonda de través: ajuste de White, 1 + 10 Re^(−2/3), solo con el flujo perpendicular a la línea (principio del flujo cruzado). Agua de mar: densidad por EOS-80, viscosidad por Sharqawy, Lienhard y Zubair (2010). Unidades: NIST Special Publication 811.",
          "Los tamaños de alambre, nailon y cucharas del principio son de memoria y así lo dicen; cámbielos por los suyos.",
          "Las reglas prácticas son costumbre; no se conoce fuente. Se muestran al lado de la física y nunca mezcladas con ella.",
        ],
      },
    ],
    cautions: [
      "El alambre tenso corta hasta el hueso. Nunca se lo enrolle en la mano; use guantes; no ponga los dedos en un carrete que corre ni a nadie en la dirección de una caña cargada.",
      "A un alambre enganchado en el fondo lo tira toda la embarcación. Retroceda despacio hasta estar encima; no lo saque tirando a mano.",
      "Tenga una pinza que corte alambre donde todos la alcancen.",
      "Las cucharas pesadas se balancean con los anzuelos descubiertos. Mire atrás antes de levantar una, y suba un pez con la embarcación en marcha solo como diga el patrón.",
      "Una profundidad calculada es una estimación. El fondo no es plano, la corredera no es exacta y la corriente de abajo no es la de arriba. Mire la sonda y las puntas de las cañas.",
      "Esto no es una carta ni una ayuda a la navegación. Mantenga buena vigilancia; una persona lleva el timón.",
      "Decide el patrón de la embarcación, y las reglas locales sobre aparejos, temporadas y peces valen antes que todo lo que se muestra aquí.",
    ],
  },
};
