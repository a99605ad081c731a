// The predictions of second_way.json: heights and speeds at 60 hours of one year, and where they turn in a month of it,
// by the general-purpose library @neaps/tide-predictor 0.11.0 (MIT), with Schureman's factors. Where it departs from
// NOAA's method it is set right here: f and u are those of the middle of the year throughout; M3 is turned by half a
// turn; M1 is Schureman's of formula 206 with the speed and argument that NOAA uses.
//
//	cd webapp && npm install --no-save @neaps/tide-predictor@0.11.0
//	node ../calc/tide/testdata/second_way.mjs > ../calc/tide/testdata/second_way.json
const modules = new URL("../../../webapp/node_modules/@neaps/", import.meta.url);
const { stationsById } = await import(new URL("tide-database/dist/node/index.js", modules));
const { astro, createTidePredictor } = await import(new URL("tide-predictor/dist/index.js", modules));
const { constituents } = createTidePredictor;

const ids =
  "9449880 9411340 8531680 8518750 8443970 8447930 8448157 8447270 8510560 8638610 8410140 8720218 8655151 8720832 " +
  "8726520 9414290 8661070 8536110 8467150 n03020 NYH1924@6 COD0911@5 COD0912 LIS1005 LIS1014 SFB1201 CAB1401 BOS1111 " +
  "db0201 LIS1001 NYH1906 cb0102 PEB0605";
const rad = Math.PI / 180;
const hour = 3600e3;

/** f·e^i(V+u) of a constituent at the middle of a year, as [f, V + u in °], by the library's own prediction of 1·cos. */
function atMiddle(name, middle) {
  const [cos, sin] = [0, 90].map((phase) => {
    const one = createTidePredictor([{ name, amplitude: 1, phase }], { nodeCorrections: "schureman" });
    return one.getWaterLevelAtTime({ time: middle }).level;
  });
  return [Math.hypot(cos, sin), Math.atan2(sin, cos) / rad];
}

function curve(station, year) {
  const begin = Date.UTC(year, 0, 1);
  const middle = new Date((begin + Date.UTC(year + 1, 0, 1)) / 2);
  const terms = station.harmonic_constituents
    .filter((c) => c.amplitude > 0)
    .map((c) => {
      if (c.name === "M1") {
        const { P, xi, nu } = Object.fromEntries(Object.entries(astro(middle)).map(([k, v]) => [k, v.value]));
        const f = atMiddle("O1", middle)[0] * Math.sqrt(2.31 + 1.435 * Math.cos(2 * P * rad));
        const u = xi - nu + Math.atan2(0.483 * Math.sin(P * rad), Math.cos(P * rad)) / rad;
        const v = astro(new Date(begin))["T+h-s"].value - 90;
        return [c.amplitude * f, 14.4966939, begin, v + u - c.phase];
      }
      const [f, argument] = atMiddle(c.name, middle);
      const turned = c.name === "M3" ? 180 : 0;
      return [c.amplitude * f, constituents[c.name].speed, +middle, argument + turned - c.phase];
    });
  const mean = station.kind === "tide" ? station.datums.MSL - station.datums.MLLW : station.current.mean_flow;
  return (time) =>
    terms.reduce((sum, [a, speed, from, phase]) => sum + a * Math.cos(rad * (speed * ((time - from) / hour) + phase)), mean);
}

/** Where a curve turns in a span: by steps of five minutes, then a parabola through the three highest of a minute. */
function turns(of, from, until) {
  const found = [];
  const step = hour / 12;
  for (let t = from; t < until; t += step) {
    const [a, b, c] = [of(t - step), of(t), of(t + step)];
    if ((b - a) * (c - b) > 0) continue;
    let best = t;
    for (let m = t - step; m <= t + step; m += hour / 60) if ((of(m) - of(best)) * Math.sign(b - a || b - c) > 0) best = m;
    const [x, y, z] = [of(best - hour / 60), of(best), of(best + hour / 60)];
    const off = (hour / 60) * ((x - z) / (2 * (x - 2 * y + z)));
    found.push([Math.round((best + off) / 1000), Number((y - ((x - z) * off) / (4 * (hour / 60))).toFixed(5))]);
  }
  return found;
}

const years = [2008, 2019, 2026, 2031];
const out = ids.split(" ").map((id, i) => {
  const station = stationsById.get(`noaa/${id}`);
  const year = years[i % years.length];
  const of = curve(station, year);
  const begin = Date.UTC(year, 0, 1);
  const times = Array.from({ length: 60 }, (_, k) => begin + hour * (145 * k + 7));
  const month = begin + hour * 24 * 30 * (i % 11);
  return {
    id,
    unit: station.kind === "tide" ? "m" : "kn",
    points: times.map((time) => [time / 1000, Number(of(time).toFixed(5))]),
    turns: turns(of, month, month + 20 * 24 * hour),
  };
});
console.log(`[\n${out.map((station) => JSON.stringify(station)).join(",\n")}\n]`);
