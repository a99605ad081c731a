/** DEVELOPERS.md, held against the tree: it names every room, and no place that is not there. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { describe, expect, it } from "vitest";

const root = join(import.meta.dirname, "../..");
const page = readFileSync(join(root, "DEVELOPERS.md"), "utf8");
const drawing = page.match(/```\n(calc\/.*?)```/s)?.[1] ?? "";

/** Folders of one word each, or of cases. */
const passedOver = /\/(testdata|text\/\w\w)(\/|$)/;

const folders = ["calc", "server", "tools", "webapp/src"].flatMap((top) =>
  readdirSync(join(root, top), { recursive: true, withFileTypes: true })
    .filter((one) => one.isDirectory())
    .map((one) => join(one.parentPath, one.name).slice(root.length + 1))
    .filter((path) => !passedOver.test(path)),
);

/** What only a run of the tests leaves. */
const left = "webapp/screens/";

/** What names in text may begin at. */
const from = ["", "webapp", "webapp/src", "webapp/src/base"];

/** A star is any folder. */
function isThere(path: string): boolean {
  const [before = "", after] = path.split("*", 2);
  return from.some((start) => {
    const place = join(root, start, before);
    if (after === undefined) return existsSync(place);
    return existsSync(place) && readdirSync(place).some((name) => existsSync(join(place, name, after)));
  });
}

const places = (text: string): string[] =>
  [...text.matchAll(/`(?:\.\/)?(\.?[\w-]+\/[\w./*-]+)`/g)].map(([, path]) => path as string);

describe("DEVELOPERS.md", () => {
  it("draws every room", () => {
    expect(folders.length).toBeGreaterThan(100);
    expect(folders.filter((path) => !new RegExp(`\\b${basename(path)}/`).test(drawing))).toEqual([]);
  });

  it("draws none that is not there", () => {
    const drawn = [...drawing.matchAll(/(?:^ *|\/ )([a-z]+)\//gm)].map(([, name]) => name as string);
    expect(drawn.length).toBeGreaterThan(60);
    const names = new Set([
      ...folders.map((path) => basename(path)),
      "calc",
      "webapp",
      "embed",
      "server",
      "tools",
    ]);
    expect(drawn.filter((name) => !names.has(name))).toEqual([]);
  });

  it("sends to places that are there", () => {
    const told = places(page.replace(drawing, ""));
    expect(told.length).toBeGreaterThan(50);
    expect(told.filter((path) => path !== left && !isThere(path))).toEqual([]);
  });

  it("would notice one that is not", () => {
    expect(places("`state/no/such.ts`, `./calc/gone`").filter(isThere)).toEqual([]);
    expect(places("`text/*/gear.ts`").filter(isThere)).toEqual(["text/*/gear.ts"]);
  });
});
