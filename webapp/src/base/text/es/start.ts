/** Palabras de los primeros pasos. */
import type { start as en } from "../en/start";

export const start: typeof en = {
  start: {
    title: "Primeros pasos",
    about: "Qué dicen los números, y qué ajustar primero",
    numbers: "Qué dicen los números",
    depth: "A esa profundidad va el señuelo ahora, desde la superficie.",
    doubt: "Nueve de cada diez veces no está más lejos que esto, hacia arriba o hacia abajo.",
    odds: "La probabilidad de que vaya a la distancia del fondo que usted quiere. La barra dice lo mismo: llena y verde está bien, corta y parda no; debajo dice qué hacer.",
    green:
      "En el dibujo, visto de lado, cada caña tiene su marca; la franja de trazos es donde usted las quiere.",
    settings: "Tres ajustes los hacen de esta embarcación",
    rigs: "El alambre y la cuchara de cada carrete",
    spoons: "Sus cucharas: largo y peso",
    drails: "Los plomos y plomadas a bordo",
    next: "Después enséñele lo que sabe",
    teach: "Un ajuste que se sabe que roza, un ángulo, una tensión: el ± se estrecha.",
    guest: "Usted es invitado en esta salida",
    briefing: "Oír la charla",
    guestWhat:
      "Lo que anote aquí llega solo a las notas de la embarcación. Pregunte al patrón antes de cambiar línea o velocidad.",
    done: "Entendido",
  },
};
