// The table of tide and current stations for one region, from NOAA's harmonic constants (public domain) as the npm
// package @neaps/tide-database has them: positions, names, constants and differences as columns of small whole numbers,
// which compress well. calc/tide reads it (table.go tells the form).
//
//	node tools/tides/make.mjs REGION FILE [ID …]    with ids: only these and what they refer to
import { writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { columns } from "./columns.mjs";

const regions = {
  east: { name: "Atlantic coast of the United States, 24–46° N, 82–66° W", box: [24, 46, -82, -66] },
  west: { name: "Pacific coast of the United States, 32–49.5° N, 126–117° W", box: [32, 49.5, -126, -117] },
};

const [regionName, file, ...only] = process.argv.slice(2);
const region = regions[regionName];
if (!region || !file) {
  console.error(`usage: node tools/tides/make.mjs ${Object.keys(regions).join("|")} FILE [ID …]`);
  process.exit(2);
}

// The webapp has the package among what it is built with.
const find = createRequire(new URL("../../webapp/package.json", import.meta.url));
const { allStations } = await import(find.resolve("@neaps/tide-database"));
const { name, version } = find("@neaps/tide-database/package.json");

const all = new Map(allStations.filter((s) => s.id.startsWith("noaa/")).map((s) => [s.id, s]));
const referenceOf = (s) => (s.type === "reference" ? undefined : (s.offsets ?? s.current.offsets).reference);

const [south, north, west, east] = region.box;
const inside = (s) => s.latitude >= south && s.latitude <= north && s.longitude >= west && s.longitude <= east;
const chosen = new Set(
  [...all.values()]
    .filter((s) => (only.length > 0 ? only.includes(s.id.slice(5)) : inside(s)))
    .filter((s) => s.quality?.reason !== "duplicate"),
);
for (const id of only) if (!all.has(`noaa/${id}`)) throw new Error(`there is no station ${id}`);
// A few lie in the region and refer to a station outside it.
for (const s of chosen) {
  const reference = all.get(referenceOf(s));
  if (reference) chosen.add(reference);
}

for (const s of chosen) {
  if (s.license.type !== "public domain") throw new Error(`${s.id} is ${s.license.type}`);
}

// The constants serve from one cycle of the moon's node before they were published until ten years after: a judgement.
const published = Number(/\.(\d{4})\d{4}$/.exec(version)[1]);
const bytes = columns([...chosen], {
  region: region.name,
  source: `NOAA harmonic constants, public domain, by ${name} ${version}`,
  from: published - 19,
  until: published + 10,
});
writeFileSync(file, bytes);
