import { describe, expect, it } from "vitest";
import { content, type Stored } from "../entry/entry";
import { uuid } from "../entry/uuid";
import type { Batch } from "../log/disk/exchanging";
import { OtherVersion, readAnswer, requestFor, Unsound } from "./wire";

const trip = uuid();
const entry = (text: string): Stored => ({
  id: uuid(),
  record: uuid(),
  kind: "note",
  trip,
  prev: [],
  set: { text },
  at: 1,
  n: 1,
});
const mine: Stored = { ...entry("mine"), own: true, out: [1, 1] };
const sent: Batch = { cursor: { epoch: "e", since: 3, check: "c", more: false }, entries: [mine], holds: 2 };
const theirs = { ...entry("theirs"), no: 4, by: "ben", byName: "Ben's phone" };
const sound = {
  version: 1,
  epoch: "e",
  taken: [{ id: mine.id, no: 5 }],
  refused: [],
  entries: [theirs],
  upto: 5,
  check: "d",
  more: false,
  spoilt: [2],
  now: 1,
  you: { device: "d", name: "Ann's phone", role: "mate", may: ["trips", "crew"] },
  photos: { wanted: ["a".repeat(64)] },
};

describe("a request", () => {
  it("carries only what an entry says", () => {
    const { own: _own, out: _out, ...said } = mine;
    expect(JSON.parse(requestFor(sent))).toEqual({
      version: 1,
      epoch: "e",
      since: 3,
      check: "c",
      holds: 2,
      entries: [said],
    });
  });

  it("brings what another phone wrote in that phone's name, and never says who brought it", () => {
    const brought = { ...theirs, via: "cy", viaName: "Cy's phone", out: [4, 1] as [number, number] };
    const [one] = JSON.parse(requestFor({ ...sent, entries: [brought] })).entries;
    expect(one).toMatchObject({ by: "ben", byName: "Ben's phone" });
    expect(Object.keys(one)).not.toContain("via");
    expect(Object.keys(one)).not.toContain("out");
  });
});

describe("an answer", () => {
  it("is read", () => {
    expect(readAnswer(sound, sent)).toEqual({
      cursor: { epoch: "e", since: 5, check: "d", more: false },
      taken: [{ id: mine.id, no: 5 }],
      refused: [],
      entries: [theirs],
      spoilt: [2],
      now: 1,
      you: { ...sound.you, marks: true },
      wanted: sound.photos.wanted,
    });
  });

  it("may have fields that this version does not know", () => {
    const later = { ...sound, moon: "full", entries: [{ ...theirs, mood: "good" }] };
    expect(readAnswer(later, sent)).toEqual(readAnswer(sound, sent));
  });

  it("refuses by the place, whatever the server could read of the id", () => {
    const { refused, taken } = readAnswer(
      { ...sound, taken: [], refused: [{ index: 0, id: "", code: "form", why: "No." }] },
      sent,
    );
    expect(taken).toEqual([]);
    expect(refused).toEqual([{ id: mine.id, code: "form", why: "No." }]);
  });

  it("of another version is told apart", () => {
    expect(() => readAnswer({ ...sound, version: 2 }, sent)).toThrow(OtherVersion);
  });

  it("of an older server knows nothing spoilt", () => {
    const { spoilt: _spoilt, ...older } = sound;
    expect(readAnswer(older, sent).spoilt).toEqual([]);
  });

  it("with entries that do not keep the contract keeps the others, and holds those as they came", () => {
    const deep = JSON.parse(`${"[".repeat(4000)}${"]".repeat(4000)}`);
    const odd = [
      { at: -1 },
      { kind: "constructor" },
      { set: JSON.parse('{"__proto__": 1}') },
      { set: { text: "x".repeat(17_000) } },
      { set: { more: deep } },
      { kind: "trip", record: trip, set: { opened: 1e300 } },
      { n: 2 ** 53 - 1 },
      { id: "x", trip: 5, record: null, kind: {} },
    ].map((change, i) => ({ ...theirs, id: uuid(), ...change, no: 5 + i }));
    const last = { ...theirs, id: uuid(), no: 20 };
    const read = readAnswer({ ...sound, entries: [theirs, ...odd, last], upto: 20 }, sent).entries;
    expect(read.map(({ unreadable }) => unreadable !== undefined)).toEqual([
      false,
      ...odd.map(() => true),
      false,
    ]);
    expect(read.map(({ no }) => no)).toEqual([4, ...odd.map(({ no }) => no), 20]);
    for (const [i, one] of odd.entries()) {
      const held = read[i + 1]?.unreadable?.text ?? "";
      // Too deep to be compared otherwise.
      expect(held === JSON.stringify(content(one as never))).toBe(true);
    }
  });

  it("tells what this phone may do; a server that does not is gone by the role, and nobody's role is the least", () => {
    const may = (you: object) => readAnswer({ ...sound, you: { device: "d", name: "n", ...you } }, sent).you;
    expect(may({ role: "mate", may: ["trips", "fly"] })).toMatchObject({
      role: "mate",
      may: ["trips"],
      marks: true,
    });
    expect(may({ role: "skipper" })).toEqual({
      device: "d",
      name: "n",
      role: "skipper",
      may: ["trips", "crew", "invite", "phones"],
    });
    expect(may({ role: "captain", may: ["crew"] })).toMatchObject({ role: "captain", may: ["crew"] });
    expect(may({ role: "captain" })).toMatchObject({ role: "captain", may: [] });
    expect(may({ role: "toString", may: "all", trip })).toMatchObject({ role: "toString", may: [], trip });
  });

  it("tells a guest how much room there is", () => {
    expect(readAnswer({ ...sound, room: { entries: 5, bytes: 7 } }, sent).room).toEqual({
      entries: 5,
      bytes: 7,
    });
  });

  const bad: [string, unknown][] = [
    ["a spoilt number that is none", { ...sound, spoilt: ["2"] }],
    ["spoilt numbers without end", { ...sound, spoilt: Array.from({ length: 201 }, (_, i) => i + 1) }],
    ["nothing", null],
    ["a text", "welcome to the marina"],
    ["no epoch", { ...sound, epoch: undefined }],
    ["an empty epoch", { ...sound, epoch: "" }],
    ["a cursor that goes back", { ...sound, upto: 2 }],
    ["a cursor that is no count", { ...sound, upto: "5" }],
    ["more without end", { ...sound, entries: [], upto: 3, more: true }],
    ["a number for what was not sent", { ...sound, taken: [{ id: theirs.id, no: 5 }] }],
    ["a number given twice", { ...sound, taken: [...sound.taken, ...sound.taken] }],
    ["taken and refused", { ...sound, refused: [{ index: 0, code: "size", why: "" }] }],
    [
      "a refusal of what was not sent",
      { ...sound, taken: [], refused: [{ index: 1, code: "size", why: "" }] },
    ],
    [
      "a refusal twice",
      {
        ...sound,
        taken: [],
        refused: [
          { index: 0, code: "size", why: "" },
          { index: 0, code: "size", why: "" },
        ],
      },
    ],
    ["an entry without an answer", { ...sound, taken: [] }],
    ["a number that is none", { ...sound, taken: [{ id: mine.id, no: 1.5 }] }],
    ["a refusal that says nothing", { ...sound, taken: [], refused: [{ index: 0 }] }],
    [
      "a flood of reasons",
      { ...sound, taken: [], refused: [{ index: 0, code: "x", why: "x".repeat(9999) }] },
    ],
    ["an entry that was seen", { ...sound, entries: [{ ...theirs, no: 3 }] }],
    ["an entry beyond the cursor", { ...sound, entries: [{ ...theirs, no: 6 }] }],
    ["entries out of order", { ...sound, entries: [theirs, { ...theirs, id: uuid() }] }],
    ["nobody in particular", { ...sound, you: undefined }],
    ["an entry without a number", { ...sound, entries: [{ ...theirs, no: undefined }] }],
    ["no photos", { ...sound, photos: undefined }],
  ];
  it.each(bad)("with %s is not believed", (_, raw) => {
    expect(() => readAnswer(raw, sent)).toThrow(Unsound);
  });

  it("passes over what is no name of a photo", () => {
    expect(readAnswer({ ...sound, photos: { wanted: ["../../etc/passwd", 7] } }, sent).wanted).toEqual([]);
  });
});
