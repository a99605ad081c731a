/** The drawing of the rooms, held against what the files import: see DEVELOPERS.md. */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import { describe, expect, it } from "vitest";

/** What each file imports, both as paths from here. */
type Imports = { [file: string]: string[] };

/** Imports lead from one of these to itself or to one before it. */
const layers = ["base", "state", "screens", "app"];

/** Rooms in which there may be markup. */
const drawn = ["base/parts", "screens", "app"];

const mostInARoom = 16;

/** Lists rather than rooms: words by room, types by calculation. */
const lists = /^base\/(text\/\w+|desk\/types)$/;

const layerOf = (file: string) => layers.indexOf(file.split("/")[0] ?? "");
const screenOf = (file: string) => (file.startsWith("screens/") ? file.split("/")[1] : undefined);

function read(): Imports {
  const here = import.meta.dirname;
  const files = readdirSync(here, { recursive: true, encoding: "utf8" }).filter((name) =>
    /\.tsx?$/.test(name),
  );
  return Object.fromEntries(
    files
      .filter((file) => dirname(file) !== ".")
      .map((file) => {
        const text = readFileSync(join(here, file), "utf8");
        const found = [...text.matchAll(/(?:\bfrom|\bimport\(?|\bURL\()\s*"(\.[^"]+)"/g)];
        const paths = found.map(([, to]) => normalize(join(dirname(file), to as string)));
        return [file, paths.map((path) => ending(here, path))];
      }),
  );
}

const ending = (here: string, path: string): string =>
  path + ["", ".ts", ".tsx"].find((end) => /\.\w+$/.test(path + end) && existsSync(join(here, path + end)));

const upward = (all: Imports): string[] =>
  Object.entries(all).flatMap(([file, imported]) =>
    imported.filter((to) => layerOf(to) > layerOf(file) || layerOf(to) < 0).map((to) => `${file} → ${to}`),
  );

const betweenScreens = (all: Imports): string[] =>
  Object.entries(all).flatMap(([file, imported]) =>
    imported
      .filter((to) => screenOf(file) && screenOf(to) && screenOf(file) !== screenOf(to))
      .map((to) => `${file} → ${to}`),
  );

/** Folders that lead back to themselves by way of others. */
function cycles(all: Imports): string[] {
  const to = new Map<string, Set<string>>();
  for (const [file, imported] of Object.entries(all)) {
    const from = to.get(dirname(file)) ?? new Set();
    to.set(dirname(file), from);
    for (const path of imported) if (dirname(path) !== dirname(file)) from.add(dirname(path));
  }
  const reached = (start: string): Set<string> => {
    const seen = new Set<string>();
    const open = [...(to.get(start) ?? [])];
    for (let next = open.pop(); next !== undefined; next = open.pop()) {
      if (seen.has(next)) continue;
      seen.add(next);
      open.push(...(to.get(next) ?? []));
    }
    return seen;
  };
  return [...to.keys()].filter((folder) => reached(folder).has(folder));
}

function crowded(all: Imports): string[] {
  const rooms = new Map<string, number>();
  for (const file of Object.keys(all)) rooms.set(dirname(file), (rooms.get(dirname(file)) ?? 0) + 1);
  return [...rooms].filter(([room, files]) => files > mostInARoom && !lists.test(room)).map(([room]) => room);
}

const drawnElsewhere = (all: Imports): string[] =>
  Object.keys(all).filter(
    (file) => file.endsWith(".tsx") && !drawn.some((room) => file.startsWith(`${room}/`)),
  );

describe("the rooms", () => {
  const all = read();

  it("are read as they are", () => {
    expect(Object.keys(all).length).toBeGreaterThan(300);
    expect(all["app/main.tsx"]).toContain("app/start.ts");
    expect(all["base/text/spoken/in-use.ts"]).toContain("base/text/spoken/es.ts");
    expect(all["base/desk/desk.ts"]).toContain("base/desk/worker.ts");
  });

  it("import downward only", () => expect(upward(all)).toEqual([]));
  it("of one screen import nothing of another", () => expect(betweenScreens(all)).toEqual([]));
  it("lead in no circle", () => expect(cycles(all)).toEqual([]));
  it("are not crowded", () => expect(crowded(all)).toEqual([]));
  it("have markup only where things are drawn", () => expect(drawnElsewhere(all)).toEqual([]));
});

describe("what is wrong is found", () => {
  it("up", () => {
    expect(upward({ "base/a/x.ts": ["state/b/y.ts", "base/c/z.ts"], "state/b/y.ts": ["lib/q.ts"] })).toEqual([
      "base/a/x.ts → state/b/y.ts",
      "state/b/y.ts → lib/q.ts",
    ]);
  });

  it("across", () => {
    expect(
      betweenScreens({ "screens/a/b/x.tsx": ["screens/a/y.ts", "screens/c/z.tsx", "base/d/w.ts"] }),
    ).toEqual(["screens/a/b/x.tsx → screens/c/z.tsx"]);
  });

  it("round", () => {
    const round = {
      "s/a/x.ts": ["s/b/y.ts"],
      "s/b/y.ts": ["s/c/z.ts", "s/b/v.ts"],
      "s/c/z.ts": ["s/a/w.ts"],
    };
    expect(cycles({ ...round, "s/d/u.ts": ["s/a/x.ts"] })).toEqual(["s/a", "s/b", "s/c"]);
  });

  it("too many side by side, and markup out of place", () => {
    const many = Object.fromEntries(Array.from({ length: 17 }, (_, i) => [`state/a/${i}.ts`, []]));
    expect(crowded(many)).toEqual(["state/a"]);
    expect(drawnElsewhere({ "state/a/x.tsx": [], "base/store/y.tsx": [], "base/parts/z.tsx": [] })).toEqual([
      "state/a/x.tsx",
      "base/store/y.tsx",
    ]);
  });
});
