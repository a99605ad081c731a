/**
 * An invented season of which the truth is known: what there is to find is written here and nowhere else. Boat, ground,
 * people and fish are made up.
 */
import { writeFileSync } from "node:fs";
import { test } from "@playwright/test";

/** Draws the same numbers every time: mulberry32 (T. Ettinger, public domain). */
function dice(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export interface Truth {
  /** How much more often fish strike the first spoon; 1: as often as any. */
  spoon: number;
  /** The same at dawn, whatever is out. */
  dawn: number;
  trips: number;
  /** Strikes of one line in an hour, if nothing matters. */
  rate: number;
  /** Where the shoal is, °. */
  lat: number;
  lon: number;
}

export const demo: Truth = { spoon: 3, dawn: 2, trips: 24, rate: 0.5, lat: 40.45, lon: -73.85 };

const spoons = ["Demo spoon A", "Demo spoon B", "Demo spoon C", "Demo spoon D"];
/** None of them matters; the first is out in the early hours alone, when more fish strike whatever is out. */
const colours = ["Demo dawn colour", "white", "green", "metal"];
const places = ["port rigger", "port corner", "starboard corner", "starboard rigger"];
const hour = 3_600_000;

/** The season as a file of notes. */
function demoSeason(truth: Truth = demo, seed = 1): string {
  const draw = dice(seed);
  // So that a season is the same whatever its colours are.
  const drawColour = dice(seed + 1);
  const from = <T>(all: readonly T[]): T => all[Math.floor(draw() * all.length)] as T;
  const after = (mean: number) => -Math.log(1 - draw()) * mean;
  const hex = (n: number) => Array.from({ length: n }, () => Math.floor(draw() * 16).toString(16)).join("");
  const id = (version: 4 | 7) => `${hex(8)}-${hex(4)}-${version}${hex(3)}-a${hex(3)}-${hex(12)}`;
  const by = id(4);
  const entries: object[] = [];
  const say = (record: string, kind: string, trip: string, at: number, set: object) => {
    const n = entries.length + 1;
    entries.push({
      ...{ id: id(7), record, kind, trip, prev: [], set, at: Math.round(at), n },
      ...{ by, byName: "Demo phone" },
    });
  };
  for (let day = 0; day < truth.trips; day++) {
    const trip = id(4);
    // From first light of a summer morning off an invented shoal.
    const begin = Date.UTC(2026, 5, 1 + 3 * day, 9, 0);
    const end = begin + 5 * hour;
    const luck = after(1) * 0.5 + 0.5;
    let [lat, lon] = [truth.lat + 0.02 * draw(), truth.lon + 0.02 * draw()];
    const where = () => {
      lat += 0.002 * (draw() - 0.5);
      lon += 0.002 * (draw() - 0.5);
      return { lat, lon, accuracy: 5 };
    };
    say(trip, "trip", trip, begin - hour / 4, { name: `Demo trip ${day + 1}`, opened: begin - hour / 4 });
    const setting = (at: number) => ({
      colour:
        at < begin + hour && drawColour() < 0.7
          ? colours[0]
          : colours[1 + Math.floor(drawColour() * (colours.length - 1))],
      lure: from(spoons),
      lineOut: from([45, 55, 65, 75]),
      drail: from([0, 0.1134, 0.2268]),
    });
    const rods = places.map(() => ({ ...setting(begin), next: begin + hour * (0.5 + draw()) }));
    const spread = () => ({
      speed: 1.5,
      bottom: 15,
      rods: rods.map(({ lure, colour, lineOut, drail }, i) => {
        const mid = 2 + lineOut / 9 + drail * 8;
        return {
          place: places[i],
          rig: "Demo rig",
          lure,
          colour,
          lineOut,
          drail,
          depth: { low: mid - 1, mid, high: mid + 1 },
        };
      }),
    });
    say(id(4), "lines", trip, begin, { spread: spread(), ...where() });
    for (let at = begin; ; ) {
      // A step of two minutes is short beside everything that happens in it.
      const step = hour / 30;
      at += step;
      if (at >= end) break;
      const changed = rods.filter(({ next }) => at >= next);
      for (const rod of changed) Object.assign(rod, setting(at), { next: at + hour * (0.5 + draw()) });
      if (changed.length > 0) say(id(4), "lines", trip, at, { spread: spread(), ...where() });
      if (draw() < 0.04)
        say(id(4), "pass", trip, at + 1000, { heading: draw() * 6.28, bottom: 15, ...where() });
      if (draw() < 0.02)
        say(id(4), "touch", trip, at + 2000, {
          rod: `2 ${places[1]}`,
          bottom: 14,
          spread: spread(),
          ...where(),
        });
      for (const [i, rod] of rods.entries()) {
        const dawn = at < begin + 2 * hour ? truth.dawn : 1;
        const spoon = rod.lure === spoons[0] ? truth.spoon : 1;
        if (draw() >= truth.rate * luck * dawn * spoon * (step / hour)) continue;
        const fish = draw();
        say(id(4), "mark", trip, at + 3000 + 60_000 * draw(), {
          ...{ spread: spread(), rod: `${i + 1} ${places[i]}`, ...where() },
          ...(fish < 0.2
            ? { fish: "lost" }
            : { fish: "striped bass", length: 0.6 + 0.4 * draw(), fate: fish < 0.5 ? "kept" : "released" }),
        });
      }
    }
    say(id(4), "lines", trip, end, { spread: { ...spread(), rods: [] }, ...where() });
    say(trip, "trip", trip, end + hour / 6, { closed: Math.round(end + hour / 6) });
  }
  return JSON.stringify({ format: "wirewake-notes", version: 1, saved: Date.UTC(2026, 9, 1), entries });
}

/** Where it lies on the disk: handed over by the test itself, so many letters would take long on the way to the browser. */
export function demoFile(truth?: Truth): string {
  const file = test.info().outputPath("demo.wirewake.json");
  writeFileSync(file, demoSeason(truth));
  return file;
}
