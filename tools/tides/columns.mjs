// The form of the table; calc/tide/table.go reads it. Numbers are LEB128, signed ones folded as zigzag; texts have
// their length in bytes before them, lists of texts are one text with line feeds between.

/** The same order as the constituents in calc/tide. */
const kinds = ["tide reference", "tide subordinate", "current reference", "current subordinate"];

/** Why a station has no predictions; the numbers are those in calc/tide. */
const refused = { none: 0, datums: 1, constituents: 2, rejected: 3 };

/** @param {any[]} stations @param {{region: string, source: string, from: number, until: number}} head */
export function columns(stations, head) {
  const kindOf = (s) => kinds.indexOf(`${s.kind} ${s.type}`);
  stations.sort((a, b) => kindOf(a) - kindOf(b) || (a.id < b.id ? -1 : 1));
  const at = new Map(stations.map((s, i) => [s.id, i]));
  const [tides, differences, currents, relations] = kinds.map((_, k) => stations.filter((s) => kindOf(s) === k));
  const references = [...tides, ...currents];
  const names = [...new Set(references.flatMap((s) => s.harmonic_constituents.map((c) => c.name)))];

  const out = new Columns();
  out.raw("WWT1");
  for (const text of [head.region, head.source]) out.text(text);
  out.counts([head.from, head.until]);
  out.text(names.join("\n"));
  out.counts([stations.length]);
  out.counts(stations.map((s) => kindOf(s) + kinds.length * refused[whyNot(s)]));
  out.text(stations.map((s) => s.id.slice("noaa/".length)).join("\n"));
  out.text(stations.map(label).join("\n"));
  const states = [...new Set(stations.map(stateOf))];
  out.text(states.join("\n"));
  out.counts(stations.map((s) => states.indexOf(stateOf(s))));
  out.steps(stations.map((s) => whole(s.latitude, 1e4, 0.5)));
  out.steps(stations.map((s) => whole(s.longitude, 1e4, 0.5)));

  out.numbers(tides.map((s) => whole((s.datums.MSL ?? 0) - (s.datums.MLLW ?? 0), 1000)));

  const offsets = differences.map((s) => s.offsets);
  out.steps(offsets.map((o) => at.get(o.reference)));
  out.numbers(offsets.map((o) => whole(o.time.high, 1)));
  out.numbers(offsets.map((o) => whole(o.time.low - o.time.high, 1)));
  out.numbers(offsets.map((o) => whole(o.height.high, 100)));
  out.numbers(offsets.map((o) => whole(o.height.low, 100)));
  out.counts(offsets.map((o) => Number(o.height.type === "fixed")));

  const directions = (list) => {
    for (const name of ["flood_direction", "ebb_direction"]) {
      out.counts(list.map(({ current }) => (current[name] === undefined ? 0 : 1 + whole(current[name], 10))));
    }
  };
  directions(currents);
  out.numbers(currents.map((s) => whole(s.current.mean_flow, 1000)));

  directions(relations);
  const relation = relations.map((s) => s.current.offsets);
  out.steps(relation.map((o) => at.get(o.reference)));
  for (const phase of ["slack_before_flood", "flood_time", "slack_before_ebb", "ebb_time"]) {
    out.numbers(relation.map((o) => whole(o[phase], 1)));
  }
  for (const ratio of ["flood_speed_ratio", "ebb_speed_ratio"]) out.counts(relation.map((o) => whole(o[ratio], 100)));

  // All amplitudes and then all phases, those of heights and those of currents: like beside like.
  for (const list of [tides, currents]) {
    const constants = names.map((name) => list.map((s) => s.harmonic_constituents.find((c) => c.name === name)));
    const amplitudes = constants.map((each) => each.map((c) => whole(c?.amplitude ?? 0, 1000)));
    for (const each of amplitudes) out.counts(each);
    // A constituent that a station does not have has no phase.
    const there = (each, i) => each.filter((_, j) => amplitudes[i][j] > 0);
    for (const each of constants.map(there)) out.turns(each.map((c) => whole(c.phase, 10) % 3600));
  }
  return out.bytes();
}

function whyNot(s) {
  if (s.quality?.accepted === false) return s.quality.reason === "constituents" ? "constituents" : "rejected";
  if (s.type !== "reference") return "none";
  if (s.harmonic_constituents.length === 0) return "constituents";
  return s.kind === "tide" && (s.datums.MSL === undefined || s.datums.MLLW === undefined) ? "datums" : "none";
}

/** The state's two letters, or the country elsewhere. */
const stateOf = (s) => s.region_code?.slice("US-".length) ?? s.country;

/** Its name with what tells it from others of that name. */
function label(s) {
  const state = stateOf(s);
  const parts = [s.name, ...(s.context ?? "").split(/,| · /).map((part) => part.trim())];
  return [...new Set(parts.filter((part) => part && part !== state))].join(", ");
}

/** NOAA's numbers are multiples of small units; what is not would be rounded silently. */
function whole(value, per, off = 0.01) {
  const number = Math.round(value * per);
  if (!(Math.abs(value * per - number) <= off)) throw new Error(`${value} is no multiple of 1/${per}`);
  return number;
}

class Columns {
  #bytes = [];

  raw(text) {
    this.#bytes.push(...Buffer.from(text));
  }

  text(text) {
    this.counts([Buffer.byteLength(text)]);
    this.raw(text);
  }

  counts(values) {
    for (let value of values) {
      for (; value > 127; value >>>= 7) this.#bytes.push((value & 127) | 128);
      this.#bytes.push(value);
    }
  }

  numbers(values) {
    this.counts(values.map((value) => (value < 0 ? -2 * value - 1 : 2 * value)));
  }

  /** Each as what it is more than the one before. */
  steps(values) {
    this.numbers(values.map((value, i) => value - (values[i - 1] ?? 0)));
  }

  /** The same for tenths of a degree, the short way round. */
  turns(values) {
    this.numbers(values.map((value, i) => ((value - (values[i - 1] ?? 0) + 5400) % 3600) - 1800));
  }

  bytes() {
    return Buffer.from(this.#bytes);
  }
}
