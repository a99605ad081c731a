/** Which note a fish belongs to, and whose it can be, on the phones of a guest and of the crew. */
import { IDBFactory } from "fake-indexeddb";
import { expect, it } from "vitest";
import { uuid } from "../entry/uuid";
import { boats, guest, opened, receive, start } from "../log/saying/started";

type You = Parameters<typeof receive>[1];

/** This phone in the boat's trip, where Ben has just marked a hookup and these are named. */
async function afterBen(you: You, trip: object = {}, ...names: string[]) {
  globalThis.indexedDB = new IDBFactory();
  const log = await start();
  const mark = uuid();
  await receive(log, { trip: boats, ...you }, [
    opened(boats, trip),
    { record: mark, kind: "mark", set: { rod: "1 port corner" } },
    ...names.map((name) => ({ kind: "person", set: { name } })),
  ]);
  await log.show(boats);
  const { words } = await import("../entry/fold");
  return {
    log,
    mark,
    words,
    ...(await import("./noting")),
    ...(await import("./fishes")),
    ...(await import("./people")),
  };
}

it("a guest's fish begins a mark of its own, which every phone counts: on the crew's it would be a proposal", async () => {
  const { log, mark, words, fishUp, tell, mayBeOf, fishOf, bagNow } = await afterBen({
    ...guest,
    name: "Gus",
  });
  const fish = fishOf(fishUp("striped bass"));
  expect(fish?.note.endsWith(mark)).toBe(false);
  expect(fish?.began).toBe(true);
  await tell(fish?.id ?? "", { fish: "striped bass", fate: "kept", person: "Gus" });
  const own = log.records.value.find(({ id }) => fish?.note.endsWith(id));
  expect(own && [own.kind, words(own, "fate")]).toEqual(["mark", "kept"]);
  expect(log.records.value.some(({ kind }) => kind === "proposal")).toBe(false);
  expect(bagNow()).toEqual([{ species: "striped bass", person: "Gus", count: 1 }]);
  const next = fishOf(fishUp("striped bass"));
  expect(next && mayBeOf(next).map(({ id }) => id)).toEqual([next?.note.split(".")[1]]);
});

it("a fish on the crew's phone is the one that another of the crew marked", async () => {
  const { mark, fishUp, fishOf } = await afterBen({ name: "Ann" });
  const fish = fishOf(fishUp("striped bass"));
  expect([fish?.note.endsWith(mark), fish?.began]).toEqual([true, false]);
});

it("a fish of a hookup that another phone landed meanwhile is that one, or another with a hookup of its own", async () => {
  const { log, mark, words, fishUp, tell, isAnother, landedElsewhere, fishOf, change, bagNow } =
    await afterBen({
      name: "Ann",
    });
  const id = fishUp("striped bass");
  const fish = () => fishOf(id) as NonNullable<ReturnType<typeof fishOf>>;
  expect(landedElsewhere(fish())).toBeUndefined();
  await receive(log, {}, [
    { record: mark, kind: "mark", set: { fish: "striped bass", length: 0.74, fate: "kept", person: "Bob" } },
  ]);
  expect(landedElsewhere(fish())?.by.set).toMatchObject({ length: 0.74 });
  // Told alike it is the same: nobody need be asked.
  const { length, fate } = fish();
  change(id, { length: 0.74, fate: "kept" });
  expect(landedElsewhere(fish())).toBeUndefined();
  change(id, { length, fate });
  // Measured over what the other said, as if it were the same.
  change(id, { length: 0.76 });
  await tell(id, { fish: "striped bass", length: 0.76 });
  expect(bagNow()).toHaveLength(1);
  await isAnother(id);
  expect(landedElsewhere(fish())).toBeUndefined();
  await tell(id, { fate: "kept", person: "Ann" });
  // What this phone says otherwise itself, in Notes, nobody need be asked either.
  change(id, { length: 0.79 });
  expect(landedElsewhere(fish())).toBeUndefined();
  const [theirs, own] = [mark, fish().note.split(".")[1]].map((of) => {
    const record = log.records.value.find(({ id }) => id === of);
    return (
      record &&
      ["rod", "fate", "person"]
        .map((field) => words(record, field))
        .concat(String(record.fields.get("length")?.value))
    );
  });
  expect(theirs).toEqual(["1 port corner", "kept", "Bob", "0.74"]);
  expect(own).toEqual(["1 port corner", "kept", "Ann", "0.76"]);
  expect(bagNow()).toEqual(
    expect.arrayContaining([
      { species: "striped bass", person: "Bob", count: 1 },
      { species: "striped bass", person: "Ann", count: 1 },
    ]),
  );
});

it("the only one who is named is not the whole boat, unless it was told that one fishes", async () => {
  const { anglers, keepers } = await afterBen({ name: "Ann" }, {}, "Max");
  expect([anglers(), keepers()]).toEqual([
    ["Max", ""],
    ["Ann", "Max", ""],
  ]);
  const told = await afterBen({ name: "Ann" }, { fishing: 1 }, "Max");
  expect([told.anglers(), told.keepers()]).toEqual([["Max"], ["Max"]]);
});

it("this phone's person comes first, in the spelling of the trip; nobody is thought of where nobody is named but a guest", async () => {
  const named = await afterBen({ ...guest, name: "max " }, {}, "Kim", "Max", "MAX");
  expect(named.keepers()).toEqual(["Max", "Kim"]);
  expect((await afterBen({ ...guest, name: "Gus" })).keepers()).toEqual(["Gus", ""]);
  expect((await afterBen({ name: "Ann" })).keepers()).toEqual([""]);
});
