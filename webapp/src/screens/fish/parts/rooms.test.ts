import { expect, it, vi } from "vitest";
import { desk } from "../../../base/desk/desk";
import type { Catch } from "../../../base/desk/types/fish.gen";
import { text } from "../../../base/text/text";
import { boatWords, type Question, type Room, roomFor, rowWords, stopWords } from "./rooms";

const t = text.fish.bag;
const { unsaid } = text.fish.howMany;

const room = (over: Partial<Room>): Room => ({
  ...{ species: "striped bass", person: "", isSeveral: false, kept: 1, keptByBoat: 1 },
  ...{ more: 0, moreByBoat: 0, closed: false, ask: false },
  ...over,
});

it("asks how many fish rather than to call it no limit, for all together as for one", () => {
  const of = [room({ person: "Ann", ask: true, moreByBoat: -1 }), room({ ask: true, more: 1, kept: 0 })];
  expect(boatWords(of)).toBe(t.boat(1, unsaid));
  expect(of.map(rowWords)).toEqual([`${t.row(1)}, ${t.more(0)}`, `${t.row(0)}, ${unsaid}`]);
  expect(boatWords([room({ more: -1, moreByBoat: -1 }), room({ person: "Ann" })])).toBe(
    t.boat(1, t.more(-1)),
  );
});

it("puts the boat's room under nobody's name where several are not named", () => {
  const several = [room({ isSeveral: true, more: 1, moreByBoat: 1 })];
  expect(several.map(rowWords)).toEqual([t.row(1)]);
  expect(boatWords(several)).toBe(t.boat(1, t.more(1)));
  expect(boatWords([room({})])).toBe("");
});

it("stops whoever is named and full also while nobody has said how many fish, and nobody else", () => {
  const ann = room({ person: "Ann", ask: true });
  const others = room({ ask: true, kept: 0 });
  expect(stopWords([ann, others], [""])).toEqual({ words: t.stop("Ann"), all: false });
  expect(stopWords([ann], ["Ann"])).toEqual({ words: t.stop("Ann"), all: false });
  expect(stopWords([others], [""])).toBeUndefined();
});

it("stops all where all who fish are full, or the boat is", () => {
  const [ann, ben] = [room({ person: "Ann", moreByBoat: 1 }), room({ person: "Ben", moreByBoat: 1 })];
  expect(stopWords([ann, ben], ["Ann", "Ben"])).toEqual({ words: t.stopBoat, all: true });
  expect(stopWords([ann, { ...ben, more: 1 }], ["Ann", "Ben"])).toEqual({ words: t.stop("Ann"), all: false });
  expect(stopWords([room({}), room({ person: "Ann" })], ["", "Ann"])?.words).toBe(t.stopBoat);
  expect(stopWords([room({})], [""])).toEqual({ words: t.stop(""), all: true });
});

it("asks for one who is named with as many as there surely are, where nobody has said how many", async () => {
  const judge = (_: string, { aboard = 0, byPerson = 0 }: Catch) => {
    const full = aboard > 0 && byPerson > 0;
    return Promise.resolve({
      ...{ byRules: full ? "release" : "keep", reasons: full ? [{ why: "bag of the person full" }] : [] },
      ...{ moreByPerson: 0, moreByBoat: -1, askHowMany: aboard === 0 },
    });
  };
  vi.spyOn(desk, "ask").mockImplementation(judge as never);
  const question = (person: string): Question => ({
    ...{ species: "striped bass", person, isSeveral: false, kept: 1, atLeast: 2 },
    ask: { byPerson: 1, byBoat: 1, aboard: 0 } as Catch,
  });
  expect(await roomFor(question("Ann"))).toMatchObject({ more: 0, ask: true, closed: false });
  expect(await roomFor(question(""))).toMatchObject({ more: 1, ask: true });
  vi.restoreAllMocks();
});
