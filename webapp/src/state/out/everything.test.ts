/** All of a phone in a ZIP, and back on a phone that has little room, or with a ZIP that is not as it should be. */
import { strToU8, unzipSync, type Zippable, zipSync } from "fflate";
import { afterEach, expect, it, vi } from "vitest";
import { text } from "../../base/text/text";
import { uuid } from "../entry/uuid";
import { saved, start } from "../log/saying/started";
import { hashOf } from "../photos/shrink";

vi.mock("../photos/shrink", async (real) => ({
  ...(await real<typeof import("../photos/shrink")>()),
  thumbOf: async ({ sha256, type, bytes }: { sha256: string; type: string; bytes: ArrayBuffer }) => {
    if (bytes.byteLength < 3) throw new Error("no picture");
    return { sha256, type, bytes: new ArrayBuffer(1) };
  },
}));
vi.mock("../exchange/exchange", () => ({ exchange: () => undefined }));
vi.mock("../../base/phone/hand-over", () => ({ handOver: async () => true }));

afterEach(() => vi.restoreAllMocks());

const t = text.notes.everything;
const tooLarge = 64 * 1024 * 1024 + 1;

async function phone() {
  const log = await start();
  return { ...log, ...(await import("./everything")) };
}

const bytesOf = (words: string) => strToU8(words).slice().buffer;
const blob = (zip: Uint8Array<ArrayBuffer>) => new Blob([zip]);

/** The ZIP of a phone with a note and photos of these bytes. */
async function zipOf(...pictures: string[]): Promise<Uint8Array<ArrayBuffer>> {
  const from = await phone();
  from.note("note", { text: "terns" });
  for (const words of pictures) {
    const full = { sha256: await hashOf(bytesOf(words)), type: "image/jpeg", bytes: bytesOf(words) };
    from.note("photo", { sha256: full.sha256 }, { photos: [{ full, thumb: full }] });
  }
  await saved(from);
  const { zip } = await from.everything(Date.UTC(2031, 5, 1));
  await from.book.close();
  globalThis.indexedDB = new IDBFactory();
  return zip;
}

/** The same with some files of it other. */
const changed = (zip: Uint8Array<ArrayBuffer>, files: Zippable) =>
  blob(zipSync({ ...unzipSync(zip), ...files }, { level: 0 }) as Uint8Array<ArrayBuffer>);

it("brings photos that stay when room is made, and go to the server", async () => {
  const zip = await zipOf("one picture", "another");
  const to = await phone();
  expect((await to.loadEverything(blob(zip))).said).toBe(t.loaded(4, 2));
  expect(await to.book.makeRoom()).toBe(false);
  const sha256 = await hashOf(bytesOf("another"));
  expect((await to.book.photo(sha256))?.bytes.byteLength).toBe(7);
  const photos = (await to.book.standing()).photos.map((one) => one.sha256);
  expect(photos.sort()).toEqual([await hashOf(bytesOf("one picture")), sha256].sort());
});

it("tells of a disk without room for photos, or for notes, and passes over what is no picture", async () => {
  const zip = await zipOf("one picture", "another", "x");
  const to = await phone();
  const { put } = IDBObjectStore.prototype;
  let full = "entries";
  vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(function (this: IDBObjectStore, value, key) {
    if (this.name === full) throw new DOMException("full", "QuotaExceededError");
    return key === undefined ? put.call(this, value) : put.call(this, value, key);
  });
  expect((await to.loadEverything(blob(zip))).said).toBe(text.notes.file.full);
  expect(await to.book.everyEntry()).toEqual([]);
  full = "photos";
  expect((await to.loadEverything(blob(zip))).said).toBe(`${t.loaded(5, 0)} ${t.full(2)}`);
  full = "";
  expect((await to.loadEverything(blob(zip))).said).toBe(t.loaded(0, 2));
});

it("tells what is too large to be read, and takes the rest", async () => {
  const zip = await zipOf("one picture");
  const to = await phone();
  const huge = changed(zip, { [`photos/${"0".repeat(64)}.jpg`]: new Uint8Array(tooLarge) });
  expect((await to.loadEverything(huge)).said).toBe(`${t.loaded(3, 1)} ${t.skipped(1)}`);
  const notes = changed(zip, { "notes.wirewake.json": new Uint8Array(tooLarge) });
  expect((await to.loadEverything(notes)).said).toBe(text.notes.file.large);
});

it("tells what it took before a document that is broken, which is told when they are taken", async () => {
  const zip = await zipOf();
  const to = await phone();
  const { said, documents } = await to.loadEverything(
    changed(zip, { "documents/gear.json": strToU8("{cut") }),
  );
  expect(said).toBe(t.loaded(2, 0));
  await import("../gear/gear");
  expect(to.takeDocuments(new Map([["gear", documents.get("gear")]]))).toBe(1);
});

it("writes nothing that it would not read back, and tells what is left out", async () => {
  const from = await phone();
  from.note("note", { text: "terns" });
  await saved(from);
  const photo = vi.spyOn(from.book, "photo");
  vi.spyOn(from.book, "photoNames").mockResolvedValue(["a"]);
  photo.mockResolvedValue({ sha256: "a", type: "image/jpeg", bytes: new ArrayBuffer(tooLarge) });
  // Where the file went, and what is not in it.
  const said = await from.saveEverything();
  expect(said).toMatch(/wirewake-\d{4}-\d\d-\d\d\.zip\. /);
  expect(said?.endsWith(` ${t.left(1)}`)).toBe(true);
  const { zip } = await from.everything(Date.UTC(2031, 5, 1));
  expect(Object.keys(unzipSync(zip)).filter((name) => name.startsWith("photos/"))).toEqual([]);
  const [entry] = await from.book.everyEntry();
  const large = { ...entry, id: uuid(), set: { text: "x".repeat(tooLarge) } } as never;
  vi.spyOn(from.book, "everyEntry").mockResolvedValue([large]);
  expect(await from.saveEverything()).toBe(t.tooMuch);
});

it("has what the instruments said, and brings it back where it is what its name says", async () => {
  const from = await phone();
  from.note("note", { text: "terns" });
  await saved(from);
  const traces = await import("../traces/traces");
  const name = `0191f3a2-5e7c-7b1a-9d3e-2f4c6a8b0d1e/${await hashOf(bytesOf("a trace"))}`;
  await traces.keepTrace(name, strToU8("a trace").slice());
  const { zip } = await from.everything(Date.UTC(2031, 5, 1));
  await from.book.close();
  globalThis.indexedDB = new IDBFactory();
  const to = await phone();
  const { traceNames, traceOf } = await import("../traces/traces");
  const wrong = `traces/${name.slice(0, -1)}${name.endsWith("0") ? 1 : 0}`;
  expect((await to.loadEverything(changed(zip, { [wrong]: strToU8("a trace") }))).said).toBe(t.loaded(2, 0));
  expect(await traceNames()).toEqual([name]);
  expect(await traceOf(name)).toEqual(strToU8("a trace"));
});
