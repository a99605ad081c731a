/** Palabras de la tabla de profundidades. */
import { writtenIn } from "../../phone/region";
import type { card as en } from "../en/card";

const written = writtenIn("es");

export const card: typeof en = {
  card: {
    title: (place) => `Tabla de profundidades: ${place}`,
    at: (speed) => `A ${speed} por el agua.`,
    asRigged: (drail) => (drail ? `Con el plomo de ${drail}` : "Sin plomo"),
    compared: "Con otros plomos",
    lineOut: (unit) => `Fuera ${unit}`,
    depth: (unit) => `Hondo ${unit}`,
    rule: "Regla",
    against: {
      inside: "coincide con la física",
      deeper: "la física va más hondo que la regla",
      shallower: "la física va menos hondo que la regla",
    },
    parting: {
      inside: (marks, unit) => `A ${marks} ${unit} la regla cae dentro del ± de la física.`,
      deeper: (marks, unit) => `A ${marks} ${unit} la física va más hondo que la regla.`,
      shallower: (marks, unit) => `A ${marks} ${unit} la física va menos hondo que la regla.`,
    },
    comparedCaption: (unit, label) =>
      `Mitad de la profundidad en ${unit}, con un ± parecido al de arriba; debajo de cada una, más chica, la regla práctica (${label}).`,
    whyTitle: "Dónde se separan, y por qué",
    why: [
      `La regla da 1 de profundidad por 10 de línea, y 5 ft por cada 4 oz, a cualquier velocidad. En el agua, el alambre toma la pendiente en que su peso equilibra la resistencia de través: cerca de 1 en 10 para el alambre común de 3 a ${written(3.5)} nudos, más empinada al bajar la velocidad, más tendida al subirla.`,
      "El peso propio de la cuchara y el líder agregan unos pies que la regla no cuenta, y la línea entre una punta alta y el agua no da profundidad: uno contra otro. La tabla calcula con las suyas.",
      "Cada 4 oz más agregan menos que las anteriores; la regla agrega siempre 5 ft.",
    ],
    cables: (taught) =>
      `Los cables de remolque publicados frenan un tercio más que una línea lisa y callada, y el doble donde zumban; eso se supuso de su alambre, un cuarto más o menos. ${
        taught
          ? "Lo que toques y lecturas enseñaron del suyo está contado: vea Lo que dicen los toques."
          : "Nadie ha medido el suyo. Deje que un señuelo toque el fondo en una profundidad conocida, y créale al fondo."
      }`,
  },
};
