// The events of second_way.json: every fifth day of 2026 at five latitudes, by the general-purpose library
// astronomy-engine 2.1.19 (MIT), which places the sun by VSOP87 and the moon by the improved lunar theory to an arcminute.
//
//	cd webapp && npm install --no-save astronomy-engine@2.1.19
//	node ../calc/light/testdata/second_way.mjs > ../calc/light/testdata/second_way.json
const modules = new URL("../../../webapp/node_modules/", import.meta.url);
const {
  Body,
  MakeTime,
  Observer,
  SearchAltitude,
  SearchMoonPhase,
  SearchRiseSet,
  Illumination,
} = await import(new URL("astronomy-engine/esm/astronomy.js", modules));

const places = [
  [24.5, -81.8],
  [40.5, -74],
  [59.9139, 10.7522],
  [70, 0],
  [-33.8688, 151.2093],
];
const day = 86400e3;
const seconds = (time) => Math.round(time.date.getTime() / 100) / 10;

const out = places.map(([lat, lon]) => {
  const at = new Observer(lat, lon, 0);
  const days = [];
  for (let from = Date.UTC(2026, 0, 1); from < Date.UTC(2027, 0, 1); from += 5 * day) {
    const start = MakeTime(new Date(from));
    const events = [];
    const note = (change, found) => {
      if (found && found.date.getTime() < from + day) events.push([change, seconds(found)]);
    };
    note("sunrise", SearchRiseSet(Body.Sun, at, +1, start, 1));
    note("sunset", SearchRiseSet(Body.Sun, at, -1, start, 1));
    note("civil dawn", SearchAltitude(Body.Sun, at, +1, start, 1, -6));
    note("civil dusk", SearchAltitude(Body.Sun, at, -1, start, 1, -6));
    note("nautical dawn", SearchAltitude(Body.Sun, at, +1, start, 1, -12));
    note("nautical dusk", SearchAltitude(Body.Sun, at, -1, start, 1, -12));
    note("moonrise", SearchRiseSet(Body.Moon, at, +1, start, 1));
    note("moonset", SearchRiseSet(Body.Moon, at, -1, start, 1));
    days.push({
      from: from / 1000,
      events,
      illuminated: Number(Illumination(Body.Moon, new Date(from + day / 2)).phase_fraction.toFixed(4)),
    });
  }
  return { lat, lon, days };
});
const phases = ["new moon", "first quarter", "full moon", "last quarter"].map((change, i) => {
  const times = [];
  for (let from = new Date(Date.UTC(2026, 0, 1)); ; ) {
    const found = SearchMoonPhase(90 * i, from, 40);
    if (found.date.getUTCFullYear() > 2026) break;
    times.push(seconds(found));
    from = new Date(found.date.getTime() + day);
  }
  return [change, times];
});
console.log(`{"places": [\n${out.map((place) => JSON.stringify(place)).join(",\n")}\n],\n"phases": ${JSON.stringify(phases)}}`);
