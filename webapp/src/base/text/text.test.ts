import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { neededByWords } from "../sw/words";
import * as rooms from "./rooms";
import { en } from "./spoken/en";
import { es } from "./spoken/es";
import { firstKnown } from "./spoken/language";

/** Every text by its path; of a function, its name alone. */
function texts(of: unknown, path = ""): [path: string, text: string][] {
  if (typeof of === "string") return [[path, of]];
  if (typeof of !== "object" || of === null) return typeof of === "function" ? [[`${path}()`, ""]] : [];
  return Object.entries(of).flatMap(([key, value]) => texts(value, path ? `${path}.${key}` : key));
}

/** What a language needs only because the program behind it speaks English. */
const ofEnglish =
  /^(fromDesk|problems\.by(Code|Id)|enrol\.saidByServer|exchange\.refusals|crew\.radio\.meaning)\b/;

const english = new Map(texts(en).filter(([path]) => !ofEnglish.test(path)));
const spanish = new Map(texts(es).filter(([path]) => !ofEnglish.test(path)));

// The type check sees to most of this; not to lists, nor to what is looked up by any word.
it("Spanish has every text that English has, and no other", () => {
  expect([...spanish.keys()].sort()).toEqual([...english.keys()].sort());
});

it("says of one rod and of several in a rise what to do, in either language", () => {
  const said = [en, es].map(({ rise }) =>
    [[2], [1, 3]].map((rods) => rise.whole(rods).replace("\u00a0", " ")),
  );
  expect(said).toEqual([
    ["Rod 2: all in, or steer away.", "Rods 1, 3: all in, or steer away."],
    ["Caña 2: recójala entera, o desvíese.", "Cañas 1, 3: recójalas enteras, o desvíese."],
  ]);
});

it("words in another language need of the app only what the build keeps apart for them", () => {
  const needs = ["es", "spoken"].flatMap((folder) =>
    readdirSync(join(import.meta.dirname, folder))
      .filter((name) => folder === "es" || name === "es.ts")
      .flatMap((name) => {
        const source = readFileSync(join(import.meta.dirname, folder, name), "utf8");
        return [...source.matchAll(/^import (?!type )[^;]*? from "([^"]+)"/gm)].map(([, from]) =>
          join(import.meta.dirname, folder, `${from}.ts`),
        );
      }),
  );
  expect(needs.length).toBeGreaterThan(10);
  const ours = join(import.meta.dirname, "es", "/");
  expect(needs.filter((file) => !file.startsWith(ours) && !neededByWords.test(file))).toEqual([]);
});

it("the rooms have every name there is, each once", () => {
  expect(Object.keys(rooms).sort()).toEqual(Object.keys(en).sort());
});

it("no text is left in English, or out", () => {
  const alike =
    /^(app\.name|units\.|places\.|language|wetLock\.(first|second)$|.*(mmsi|\.none|unknown)$|ready\.install\.platforms|wayIn\.door\.kinds|(fish|help)\..*\.source$|unitsInWords\.°|.*\.no$|help\.toRadio$|notes\.trip\.plan)/;
  const same = [...english].filter(([path, text]) => text && spanish.get(path) === text && !alike.test(path));
  expect(same.map(([path, text]) => `${path}: ${text}`)).toEqual([]);
  for (const [path, text] of english) expect(Boolean(spanish.get(path)), path).toBe(Boolean(text));
});

/** Quoted texts of the calculations that this finds. */
function inGo(pattern: RegExp): string[] {
  const calc = join(import.meta.dirname, "../../../../calc");
  return readdirSync(calc, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".go") && !name.endsWith("_test.go"))
    .flatMap((name) =>
      [...readFileSync(join(calc, name), "utf8").matchAll(pattern)].map((found) => found[1] ?? ""),
    );
}

it("what the desk complains of is known in Spanish, and nothing else", () => {
  const ids = inGo(
    /(?:\b[Ff]ault\([^\n]*?, |\breturn |\bID: |\bid, text = "[\w.]+", )"(\w+)", (?:Text: )?"/g,
  );
  expect(ids.length).toBeGreaterThan(30);
  expect(Object.keys(es.problems.byId).sort()).toEqual([...new Set(ids)].sort());
});

it("a rule of thumb is labelled in Spanish", () => {
  const labels = inGo(/^const Label = "([^"]*)"/gm);
  expect(labels.length).toBeGreaterThan(0);
  for (const label of labels) expect(es.fromDesk[label]).toBeTruthy();
});

it("every code of a problem has words in Spanish", () => {
  const codes = inGo(/^\tCode[A-Z]\w* Code = "(\w+)"/gm);
  expect(Object.keys(es.problems.byCode).sort()).toEqual(codes.sort());
});

it("no sentence is a key: what the desk and the server say is looked up by a short word for it", () => {
  const keys: string[] = [];
  const gather = (of: unknown): void => {
    if (typeof of !== "object" || of === null) return;
    if (!Array.isArray(of)) keys.push(...Object.keys(of));
    for (const one of Object.values(of)) gather(one);
  };
  // The catalogue translates names, sources and notes that phones keep as data, and give to each other in English.
  gather({ ...es, fromDesk: {} });
  expect(keys).toContain("too irregular");
  expect(keys.filter((key) => key.split(" ").length > 7 || /[.,:;!?]/.test(key))).toEqual([]);
});

it("begins with the first of the phone's languages that there is", () => {
  expect(firstKnown(["es-MX", "en-US"])).toBe("es");
  expect(firstKnown(["fr-CA", "ES", "en"])).toBe("es");
  expect(firstKnown(["en-US", "es"])).toBe("en");
  expect(firstKnown(["pt-BR", "constructor"])).toBe("en");
  expect(firstKnown([])).toBe("en");
});

// A comma in Spain is a point in Mexico: what is written by hand in a text would be wrong in one of them.
it("numbers in Spanish texts are written as in the region", () => {
  const folder = join(import.meta.dirname, "es");
  for (const name of readdirSync(folder))
    expect(readFileSync(join(folder, name), "utf8").match(/\d,\d/g) ?? [], name).toEqual([]);
});

it("one is told as one", () => {
  const { produced, exchange, notes } = en;
  expect(produced.head("1", "1", "0.3", "1")).toBe(
    "1 strike, 1 at different times, in 0.3 hours of line on 1 trip.",
  );
  expect(produced.day.chart(1, 1, 1)).toMatch(/1 strike, 1 touch of bottom, 1 pass$/);
  expect(es.produced.head("1", "1", "0,3", "1")).toMatch(/^1 picada, .* y 1 salida\.$/);
  expect(es.produced.day.chart(1, 1, 1)).toMatch(/1 picada, 1 toque de fondo, 1 pasada$/);
  expect([exchange.unsent(1), es.exchange.unsent(1)]).toEqual(["1 change not sent", "1 cambio sin enviar"]);
  expect(notes.everything.loaded(1, 1)).toBe("1 note and 1 photo came in.");
});
