/**
 * The one home of units. Inside the app everything is SI; what a person reads and types is converted here,
 * at the edge of the screen, and nowhere else.
 */

/**
 * Size of one unit in SI: m, kg, N, s, m/s, kg/m³, m², m³, m²/s, Hz, W/(m²·K) or rad; of temperatures in °C, as the desk has them. Exact
 * by definition, save the degree of angle.
 */
export const inSi = {
  ft: 0.3048,
  fm: 1.8288,
  m: 1,
  in: 0.0254,
  mm: 0.001,
  cm: 0.01,
  oz: 0.028349523125,
  g: 0.001,
  lb: 4.4482216152605,
  kg: 9.80665,
  kn: 1852 / 3600,
  nm: 1852,
  "lb of mass": 0.45359237,
  "kg of mass": 1,
  h: 3600,
  "W/(m²·K)": 1,
  "g/cm³": 1000,
  "cm²": 0.0001,
  "°": Math.PI / 180,
  "×": 1,
  "": 1,
  "%": 0.01,
  "mm²/s": 1e-6,
  "/min": 1 / 60,
  "°C": 1,
  "°F": 1 / 1.8,
  L: 0.001,
  qt: 0.000946352946,
} as const;

/** What a scale that does not begin at nought reads at nought: 32 °F. */
const atZero: { [unit in UnitName]?: number } = { "°F": 32 };

export type UnitName = keyof typeof inSi;

/** The units a person can choose between; lb and kg are pulls and strengths, so forces; what fish and ice weigh follows them. */
export interface Units {
  depth: "ft" | "fm" | "m";
  line: "ft" | "fm" | "m";
  weight: "oz" | "g";
  pull: "lb" | "kg";
  temperature: "°F" | "°C";
}

export const unitChoices: { [K in keyof Units]: readonly Units[K][] } = {
  depth: ["ft", "fm", "m"],
  line: ["ft", "fm", "m"],
  weight: ["oz", "g"],
  pull: ["lb", "kg"],
  temperature: ["°F", "°C"],
};

/**
 * What a number is a number of. "thin" is a diameter, "size" a length one holds in the hand, "ruler" one read off a
 * ruler, "craft" that of a boat.
 */
export type Quantity =
  | keyof Units
  | "thin"
  | "size"
  | "ruler"
  | "mass"
  | "volume"
  | "hours"
  | "transmittance"
  | "craft"
  | "speed"
  | "sea miles"
  | "density"
  | "area"
  | "angle"
  | "viscosity"
  | "beat"
  | "factor"
  | "share"
  | "count"
  | "number";

/** How a quantity is read and typed: its unit, decimals kept, and the step of a stepper, in that unit. */
export interface Scale {
  unit: UnitName;
  decimals: number;
  step: number;
}

const scales: { [name: string]: Scale } = {
  "depth ft": { unit: "ft", decimals: 1, step: 1 },
  "depth fm": { unit: "fm", decimals: 2, step: 0.25 },
  "depth m": { unit: "m", decimals: 1, step: 0.5 },
  "line ft": { unit: "ft", decimals: 1, step: 5 },
  "line fm": { unit: "fm", decimals: 1, step: 1 },
  "line m": { unit: "m", decimals: 1, step: 2 },
  "weight oz": { unit: "oz", decimals: 1, step: 1 },
  "weight g": { unit: "g", decimals: 0, step: 25 },
  "pull lb": { unit: "lb", decimals: 0, step: 5 },
  "pull kg": { unit: "kg", decimals: 1, step: 2 },
  "temperature °F": { unit: "°F", decimals: 1, step: 1 },
  "temperature °C": { unit: "°C", decimals: 1, step: 0.5 },
};

/** The scale of a quantity in the units chosen. Small things follow the unit of line: inches or millimetres. */
export function scaleOf(quantity: Quantity, units: Units): Scale {
  switch (quantity) {
    case "thin":
      return units.line === "m"
        ? { unit: "mm", decimals: 3, step: 0.01 }
        : { unit: "in", decimals: 4, step: 0.001 };
    case "size":
      return units.line === "m"
        ? { unit: "cm", decimals: 1, step: 1 }
        : { unit: "in", decimals: 2, step: 0.5 };
    case "ruler":
      return units.line === "m"
        ? { unit: "cm", decimals: 1, step: 0.5 }
        : { unit: "in", decimals: 2, step: 0.25 };
    case "mass":
      return units.pull === "kg"
        ? { unit: "kg of mass", decimals: 1, step: 0.5 }
        : { unit: "lb of mass", decimals: 1, step: 1 };
    case "volume":
      return units.pull === "kg" ? { unit: "L", decimals: 0, step: 1 } : { unit: "qt", decimals: 0, step: 1 };
    case "hours":
      return { unit: "h", decimals: 1, step: 1 };
    case "transmittance":
      return { unit: "W/(m²·K)", decimals: 2, step: 0.1 };
    case "craft":
      return units.line === "m"
        ? { unit: "m", decimals: 1, step: 0.5 }
        : { unit: "ft", decimals: 0, step: 1 };
    case "speed":
      return { unit: "kn", decimals: 2, step: 0.1 };
    case "sea miles":
      return { unit: "nm", decimals: 2, step: 0.5 };
    case "density":
      return { unit: "g/cm³", decimals: 2, step: 0.1 };
    case "area":
      return { unit: "cm²", decimals: 1, step: 1 };
    case "angle":
      return { unit: "°", decimals: 0, step: 1 };
    case "viscosity":
      return { unit: "mm²/s", decimals: 2, step: 0.01 };
    case "beat":
      return { unit: "/min", decimals: 0, step: 1 };
    case "share":
      return { unit: "%", decimals: 1, step: 1 };
    case "number":
      return { unit: "", decimals: 0, step: 1 };
    case "count":
      return { unit: "", decimals: 0, step: 1 };
    case "factor":
      return { unit: "×", decimals: 2, step: 0.05 };
    default:
      return scales[`${quantity} ${units[quantity]}`] as Scale;
  }
}

/** SI to the number a person reads. */
export const fromSi = (si: number, unit: UnitName): number => si / inSi[unit] + (atZero[unit] ?? 0);

/** The number a person typed to SI. */
export const toSi = (number: number, unit: UnitName): number => (number - (atZero[unit] ?? 0)) * inSi[unit];

/** Rounds to a multiple of step, without the dust of binary fractions. */
export function roundTo(number: number, step: number): number {
  return Number((Math.round(number / step) * step).toFixed(6));
}

/** The next step up (+1) or down (−1) from an SI value, on the grid of the scale, in SI. */
export function stepped(si: number, by: 1 | -1, scale: Scale): number {
  const at = fromSi(si, scale.unit) / scale.step;
  const grid = by > 0 ? Math.floor(at + 1e-6) + 1 : Math.ceil(at - 1e-6) - 1;
  return toSi(roundTo(grid * scale.step, scale.step), scale.unit);
}

/** The nearest on the grid of the scale, in SI: what was measured begins as round as one steps in it. */
export const onGrid = (si: number, { unit, step }: Scale): number =>
  toSi(roundTo(fromSi(si, unit), step), unit);

/** Rounding as honest as the band: the step in which a value is told that is known to ± halfWidth. */
export function honestStep(halfWidth: number): number {
  if (halfWidth >= 20) return 5;
  if (halfWidth >= 2) return 1;
  return halfWidth >= 0.8 ? 0.5 : 0.1;
}

/**
 * A typed number: comma or point for decimals; between thousands spaces, and whichever of the two is not the mark of
 * decimals in the person's language. Undefined if it is none.
 */
export function parse(typed: string, decimalMark = "."): number | undefined {
  let text = typed
    .trim()
    .replace(/[\s\u00a0\u202f']/g, "")
    .replace(/^[−–]/, "-");
  // As if commas stood between thousands, and points before decimals.
  if (decimalMark === ",") text = text.replace(/[.,]/g, (mark) => (mark === "," ? "." : ","));
  if (/^-?[1-9]\d{0,2}(,\d{3})+(\.\d*)?$/.test(text)) text = text.replaceAll(",", "");
  else text = text.replace(",", ".");
  if (!/^[-+]?(\d+\.?\d*|\.\d+)$/.test(text)) return undefined;
  return Number(text);
}
