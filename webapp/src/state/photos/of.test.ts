import "fake-indexeddb/auto";
import { afterEach, expect, it } from "vitest";
import type { Stored } from "../entry/entry";
import { foldAll } from "../entry/fold";
import { you } from "../log/log";
import { photoRoom } from "./of";

afterEach(() => {
  you.value = undefined;
});

let n = 0;
const photos = (many: number, more: Partial<Stored>, struck = false) =>
  foldAll(
    Array.from({ length: many }, (): Stored[] => {
      const record = `r${++n}`;
      const base = { record, kind: "photo", trip: "t", at: 1e12, n, ...more };
      const noted = { ...base, id: `e${n}`, prev: [], set: { sha256: n.toString(16).padStart(64, "0") } };
      return struck
        ? [noted, { ...base, id: `s${n}`, prev: [`e${n}`], strike: true as const, n: n + 1e6 }]
        : [noted];
    }).flat(),
  );

const [ann, gus] = [{ by: "ann" }, { by: "gus" }];
const crew = () => {
  you.value = { device: "me", name: "Sal", role: "skipper", may: ["trips", "crew"], crew: ["me", "ann"] };
};

// The bounds are those of server/sync/README.md, "Photos": 200 a trip, 60 of one guest's phone.
it("what guests name takes no camera from the crew", () => {
  crew();
  const flood = photos(200, gus);
  expect(photoRoom(flood)).toEqual({ most: 200, full: false });
  // Nor where it says that one of the crew wrote it, or one of the crew brought it after a restored backup.
  expect(photoRoom(photos(200, { by: "ann", via: "gus" })).full).toBe(false);
  expect(photoRoom(photos(200, { by: "gus", via: "ann" })).full).toBe(false);
  const own = photos(100, { own: true });
  expect(photoRoom([...flood, ...own, ...photos(99, ann)]).full).toBe(false);
  expect(photoRoom([...flood, ...own, ...photos(100, ann)]).full).toBe(true);
  // What is struck out is none.
  expect(photoRoom([...own, ...photos(100, ann, true)]).full).toBe(false);
});

it("a guest's phone has room for its own, whatever the others name", () => {
  you.value = { device: "me", name: "Gus", role: "guest", trip: "t", may: [], crew: ["ann"] };
  const others = [...photos(200, gus), ...photos(200, ann)];
  expect(photoRoom([...others, ...photos(59, { own: true })])).toEqual({ most: 60, full: false });
  expect(photoRoom([...others, ...photos(60, { own: true })]).full).toBe(true);
});

it("a phone that knows of no server counts all", () => {
  expect(photoRoom(photos(200, { own: true })).full).toBe(true);
  expect(photoRoom([]).full).toBe(false);
});
