import "fake-indexeddb/auto";
import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { content, type Draft, held, type Stored } from "../entry/entry";
import { uuid } from "../entry/uuid";
import { countOf } from "../log/disk/standing";
import { begin, events, expectWhole, happen, heal, type Phone, trips } from "./sea";
import { readAnswer, requestFor } from "./wire";

describe("whatever happens on the way", () => {
  it("all hold the same in the end: nothing lost, nothing doubled", async () => {
    await fc.assert(
      fc.asyncProperty(events, async (happening) => {
        const sea = begin();
        for (const event of happening) await happen(sea, event);
        await heal(sea);
        await expectWhole(sea);
      }),
      { numRuns: 300 },
    );
  });

  it("a crash between any two steps of a run loses nothing", async () => {
    for (let crashAt = 1; crashAt <= 40; crashAt++) {
      const sea = begin();
      const [ann, ben] = sea.phones as [Phone, Phone];
      for (let i = 0; i < 5; i++) await ann.write(trips[0], i, `a${i}`, 0);
      for (let i = 0; i < 5; i++) await ben.write(trips[0], i, `b${i}`, 0);
      await ann.exchange([]);
      await ben.exchange(["answer lost"], crashAt);
      await ben.exchange([], crashAt);
      await heal(sea);
      await expectWhole(sea);
    }
  });

  it("what a phone at the bottom of the sea had brought comes back to a restored server from the others", async () => {
    const sea = begin();
    const [ann, ben] = sea.phones as [Phone, Phone];
    await ann.write(trips[0], 0, "from Ann", 0);
    await ann.exchange([]);
    await ben.exchange([]);
    sea.server.restore(0, true);
    await ben.exchange([]);
    expect(sea.server.log).toMatchObject([
      { set: { text: "from Ann" }, by: "ann", byName: "ann's phone", via: "ben", viaName: "ben's phone" },
    ]);
  });
});

it("a number above the cursor is doubted: the server may have been put back to before it", async () => {
  const { server, phones } = begin();
  const [ann, ben] = phones as [Phone, Phone];
  for (let i = 0; i < 5; i++) await ann.write(trips[0], 9, `a${i}`, 0);
  await ann.exchange([]);
  await ben.write(trips[0], 9, "from Ben", 0);
  // Ben's entry is taken as number 6, but only numbers up to 3 have come; then the line goes dead.
  await ben.exchange(["ok", "request lost"]);
  server.restore(4, false);
  await ben.exchange([]);
  expect(server.log.map((entry) => entry.set?.text)).toContain("from Ben");
});

it("after the epoch has changed all is fetched before anything is sent", async () => {
  const { server, phones } = begin();
  const [ann, ben] = phones as [Phone, Phone];
  for (let i = 0; i < 8; i++) await ann.write(trips[0], 99, `a${i}`, 0);
  await ann.exchange([]);
  await ben.exchange([]);
  server.restore(7, true);
  const answered = vi.spyOn(server, "answer");
  await ben.exchange([]);
  const sizes = answered.mock.calls.map(([, body]) => JSON.parse(body).entries.length);
  // Three pages of the seven that are left, then the eighth is brought.
  expect(sizes).toEqual([0, 0, 0, 1]);
});

it("an answer that another tab was faster than is not taken in", async () => {
  const { server, phones } = begin();
  const [ann, ben] = phones as [Phone, Phone];
  await ann.write(trips[0], 9, "a", 0);
  await ann.exchange([]);
  const batch = await ben.book.batch(10, 1000);
  const old = readAnswer(await server.answer(ben.you, requestFor(batch)).json(), batch);
  await ben.exchange([]);
  server.restore(0, true);
  await ben.exchange([]);
  expect(await ben.book.take(batch, old)).toBe(false);
  await heal({ server, phones });
  await expectWhole({ server, phones });
});

it("a guest's phone keeps to itself what is not of the guest's trip", async () => {
  const { server, phones } = begin();
  const guest = phones[3] as Phone;
  await guest.exchange([]);
  await guest.write(trips[1], 0, "my own", 0);
  await guest.write(trips[0], 0, "of the boat", 0);
  await guest.exchange([]);
  expect(server.log.map((entry) => entry.set)).toEqual([{ text: "of the boat" }]);
  const standing = await guest.book.standing();
  // And does not call it sent: the count has it, and the skipper is told how many they are.
  expect(standing).toMatchObject({ unsent: 0, refused: [], held: [{ set: { text: "my own" } }] });
  expect(server.holds.get("dee")).toBe(1);
  await guest.bring(trips[1], trips[0]);
  expect(countOf(await guest.book.standing())).toBe(1);
  await guest.exchange([]);
  expect(server.log.map((entry) => entry.set?.text)).toEqual(["of the boat", "my own"]);
  expect(countOf(await guest.book.standing())).toBe(0);
  expect(server.holds.get("dee")).toBe(0);
});

it("when two trips part, a guest's phone calls held back only what the server never had", async () => {
  const { server, phones } = begin();
  const [ann, , , guest] = phones as [Phone, Phone, Phone, Phone];
  await ann.sayOf(trips[1], { into: trips[0] });
  await ann.exchange([]);
  await guest.exchange([]);
  await guest.write(trips[1], 0, "sent", 0);
  await guest.exchange([]);
  await guest.write(trips[1], 1, "not sent", 0);
  await ann.sayOf(trips[1], { into: null });
  await ann.exchange([]);
  await guest.exchange([]);
  const held = [{ set: { text: "not sent" } }];
  expect(await guest.book.standing()).toMatchObject({ unsent: 0, refused: [], held });
  expect(server.holds.get("dee")).toBe(1);
  // Made one again, each is there once.
  await ann.sayOf(trips[1], { into: trips[0] });
  await ann.exchange([]);
  await guest.exchange([]);
  const notes = server.log.filter(({ kind }) => kind === "note").map(({ set }) => set?.text);
  expect(notes).toEqual(["sent", "not sent"]);
  expect(countOf(await guest.book.standing())).toBe(0);
  // Parted once more, and the server put back to a day before it had them: then neither is there.
  await ann.sayOf(trips[1], { into: null });
  await ann.exchange([]);
  await guest.exchange([]);
  expect((await guest.book.standing()).held).toHaveLength(0);
  server.restore(0, true);
  await guest.exchange([]);
  expect((await guest.book.standing()).held).toHaveLength(2);
});

it("an entry that is refused stays, with the reason, and saying it again settles it", async () => {
  const { server, phones } = begin();
  const ann = phones[0] as Phone;
  await ann.write(trips[0], 0, "first", 0);
  // Somebody else's entry under the same id.
  const [own] = await ann.held();
  server.log.push({ ...content(own as Stored), set: { text: "other" }, no: 1, by: "x", byName: "X" });
  await ann.exchange([]);
  const { refused } = await ann.book.standing();
  expect(refused).toMatchObject([{ set: { text: "first" }, refused: { code: "clash" } }]);
  // Told with the same run, as it is at its end.
  expect(server.holds.get("ann")).toBe(1);
  const again: Draft = { ...content(refused[0] as Stored), id: uuid(), prev: [], at: 0 };
  await ann.book.append([again], { replaced: [{ entry: (refused[0] as Stored).id, by: again.id }] });
  await ann.exchange([]);
  expect(countOf(await ann.book.standing())).toBe(0);
  expect(server.log.map((entry) => entry.set?.text)).toEqual(["other", "first"]);
  // What was refused is still there to be read.
  expect((await ann.held()).filter((entry) => entry.replaced)).toHaveLength(1);
});

it("what no request has room for is held back with the reason, and nothing waits for it", async () => {
  const { server, phones } = begin();
  const ann = phones[0] as Phone;
  await ann.write(trips[0], 0, "before", 0);
  // As an app of before there was this bound loaded it from a file.
  const [own] = await ann.held();
  const large = { ...content(own as Stored), id: uuid(), record: uuid(), set: { text: "x".repeat(950_000) } };
  await ann.book.adopt([held(large)], "Somebody");
  await ann.write(trips[0], 1, "after", 0);
  expect(await ann.exchange([])).toMatchObject({ answer: {} });
  expect(server.log.map((entry) => entry.set?.text)).toEqual(["before", "after"]);
  const { unsent, refused } = await ann.book.standing();
  expect(unsent).toBe(0);
  expect(refused).toMatchObject([{ id: large.id, refused: { code: "size" } }]);
  expect(refused[0]?.refused?.why).not.toBe("");
});

it("an answer taken in is one transaction: a disk that fails in the middle changes nothing", async () => {
  const { server, phones } = begin();
  const [ann, ben] = phones as [Phone, Phone];
  server.page = 10;
  for (let i = 0; i < 3; i++) await ann.write(trips[0], 9, `a${i}`, 0);
  await ann.exchange([]);
  for (let i = 0; i < 2; i++) await ben.write(trips[0], 9, `b${i}`, 0);
  const before = [await ben.held(), await ben.book.meta("cursor"), await ben.book.summaries()];
  const { put } = IDBObjectStore.prototype;
  for (let failing = 1; ; failing++) {
    let puts = 0;
    const spy = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (
      this: IDBObjectStore,
      value,
      key,
    ) {
      if (++puts === failing) throw new DOMException("full", "QuotaExceededError");
      return key === undefined ? put.call(this, value) : put.call(this, value, key);
    });
    const ended = await ben.exchange([]).catch((fault: Error) => fault.name);
    spy.mockRestore();
    if (typeof ended !== "string") break;
    expect(ended).toBe("QuotaExceededError");
    expect([await ben.held(), await ben.book.meta("cursor"), await ben.book.summaries()]).toEqual(before);
  }
  await expectWhole({ server, phones: [ben] });
});
