/** For the tests: many phones, one server, a bad sea between them: the real client on a real (if pretended) IndexedDB. */
import "fake-indexeddb/auto";
import fc from "fast-check";
import { expect } from "vitest";
import { rightsOf } from "../entry/contract";
import { contract } from "../entry/contract.gen";
import { content, type Draft, type Fields, type Stored } from "../entry/entry";
import { foldAll, heads } from "../entry/fold";
import { uuid } from "../entry/uuid";
import { Book } from "../log/disk/book";
import type { You } from "../log/disk/db";
import { countOf } from "../log/disk/standing";
import { ModelServer } from "./model-server";
import { type Ended, run } from "./run";

export class Crash extends Error {}

/** Two of the boat's, and one that a guest began alone: nobody else's. */
export const trips = [uuid(), uuid(), uuid()] as const;

/** What happens to one request on its way. */
type Luck =
  | "ok"
  | "request lost"
  | "answer lost"
  | "twice"
  | "answer garbled"
  | "answer cut"
  | "fault"
  | "overtaken";

export class Phone {
  book: Book;
  /** Everything that this phone's owner was told is saved. */
  readonly saved: Draft[] = [];
  enrolled = true;
  private readonly database = uuid();

  constructor(
    readonly you: You,
    private readonly server: ModelServer,
  ) {
    this.book = new Book(this.database);
  }

  /** Everything but the disk is gone. */
  async restart(): Promise<void> {
    await this.book.close();
    this.book = new Book(this.database);
  }

  async held(): Promise<Stored[]> {
    return (await Promise.all(trips.map((trip) => this.book.entriesOf(trip)))).flat();
  }

  async write(trip: string, record: number, value: string, at: number): Promise<void> {
    const records = foldAll(await this.book.entriesOf(trip)).filter(({ kind }) => kind === "note");
    const of = records[record % (records.length + 1)];
    const draft: Draft = {
      id: uuid(),
      record: of?.id ?? uuid(),
      kind: of?.kind ?? "note",
      trip,
      prev: heads(of?.entries ?? []),
      ...(value === "strike" && of ? { strike: true } : { set: { text: value } }),
      at,
    };
    await this.book.append([draft]);
    this.saved.push(draft);
  }

  /** Says something of a trip itself. */
  async sayOf(trip: string, set: Fields): Promise<void> {
    const all = (await this.book.entriesOf(trip)).filter((entry) => entry.record === trip);
    const draft = { id: uuid(), record: trip, kind: "trip", trip, prev: heads(all), set, at: 0 };
    await this.book.append([draft]);
    this.saved.push(draft);
  }

  /** Says anew in the boat's trip what this phone holds back of its own. */
  async bring(from: string, to: string): Promise<void> {
    const records = foldAll((await this.book.entriesOf(from)).filter(({ no }) => no === undefined));
    const moved = records.map(({ entries, fields }) => {
      const set = Object.fromEntries([...fields].map(([name, { value }]) => [name, value]));
      const draft = { id: uuid(), record: uuid(), kind: "note", trip: to, prev: [], set, at: 0 };
      return { draft, of: entries.map(({ id }) => id) };
    });
    await this.book.move(from, to, moved);
    this.saved.push(...moved.map(({ draft }) => draft));
  }

  /** One run with this luck, request by request; it crashes at the given step, if it gets that far. */
  async exchange(luck: Luck[], crashAt = Number.POSITIVE_INFINITY): Promise<Ended | undefined> {
    let steps = 0;
    const step = () => {
      if (++steps >= crashAt) throw new Crash();
    };
    const fragile = new Proxy(this.book, {
      get: (book, name) => {
        const member = Reflect.get(book, name);
        if (typeof member !== "function") return member;
        return async (...args: unknown[]) => {
          step();
          const result = await member.apply(book, args);
          step();
          return result;
        };
      },
    });
    const send = async (body: string): Promise<Response> => {
      step();
      const response = await this.carry(body, luck.shift() ?? "ok");
      step();
      return response;
    };
    try {
      return await run(fragile, send, undefined, async (entries) =>
        entries.map((one) =>
          one.own
            ? { ...one, by: this.you.device, byName: this.you.name, mark: `of ${this.you.device}` }
            : one,
        ),
      );
    } catch (fault) {
      if (!(fault instanceof Crash)) throw fault;
      await this.restart();
      return undefined;
    }
  }

  private late: string | undefined;

  private async carry(body: string, luck: Luck): Promise<Response> {
    const reach = (what = body) => this.server.answer(this.enrolled ? this.you : undefined, what);
    switch (luck) {
      case "request lost":
        throw new TypeError("failed to fetch");
      case "answer lost":
        reach();
        throw new TypeError("failed to fetch");
      case "twice":
        reach();
        return reach();
      case "overtaken":
        // This one arrives only after the next.
        this.late = body;
        throw new TypeError("failed to fetch");
      case "answer garbled":
        reach();
        return new Response("<html>Welcome to the marina</html>");
      case "answer cut":
        return new Response((await reach().text()).slice(0, -20));
      case "fault":
        return Response.json({ code: "fault", text: "" }, { status: 500 });
      case "ok": {
        const answer = reach();
        if (this.late) reach(this.late);
        this.late = undefined;
        return answer;
      }
    }
  }
}

export interface Sea {
  server: ModelServer;
  phones: Phone[];
}

type Event =
  | { do: "write"; phone: number; trip: number; record: number; value: string; at: number }
  | { do: "trip"; phone: number; trip: number; says: Fields }
  | { do: "bring" }
  | { do: "exchange"; phone: number; luck: Luck[]; crashAt: number }
  | { do: "restore"; part: number; told: boolean }
  | { do: "spoil"; part: number }
  | { do: "revoke"; phone: number }
  | { do: "file"; from: number; to: number };

export const phone = fc.nat(3);
const luck = fc.constantFrom<Luck>(
  "ok",
  "ok",
  "request lost",
  "answer lost",
  "twice",
  "answer garbled",
  "answer cut",
  "fault",
  "overtaken",
);
export const events: fc.Arbitrary<Event[]> = fc.array(
  fc.oneof(
    {
      weight: 6,
      arbitrary: fc.record({
        do: fc.constant("write" as const),
        phone,
        trip: fc.nat(1),
        record: fc.nat(6),
        value: fc.constantFrom("a", "b", "c", "strike"),
        // A clock may be wrong by any amount.
        at: fc.nat(contract.entry.time.max),
      }),
    },
    {
      weight: 6,
      arbitrary: fc.record({
        do: fc.constant("exchange" as const),
        phone,
        luck: fc.array(luck, { maxLength: 6 }),
        crashAt: fc.oneof(fc.integer({ min: 1, max: 30 }), fc.constant(Number.POSITIVE_INFINITY)),
      }),
    },
    {
      weight: 1,
      arbitrary: fc.record({
        do: fc.constant("restore" as const),
        part: fc.double({ min: 0, max: 1, noNaN: true }),
        told: fc.boolean(),
      }),
    },
    {
      weight: 1,
      arbitrary: fc.record({
        do: fc.constant("spoil" as const),
        part: fc.double({ min: 0, max: 1, noNaN: true }),
      }),
    },
    {
      weight: 2,
      arbitrary: fc.record({
        do: fc.constant("trip" as const),
        phone,
        trip: fc.nat(1),
        // Made one in either direction, on several phones at once; parted, closed and opened across each other.
        says: fc.constantFrom<Fields>(
          { into: trips[0] },
          { into: trips[1] },
          { into: null },
          { apart: true },
          { closed: 5 },
          { closed: null },
          { name: "Sunday" },
        ),
      }),
    },
    { weight: 1, arbitrary: fc.record({ do: fc.constant("bring" as const) }) },
    { weight: 1, arbitrary: fc.record({ do: fc.constant("revoke" as const), phone }) },
    { weight: 1, arbitrary: fc.record({ do: fc.constant("file" as const), from: phone, to: phone }) },
  ),
  { minLength: 1, maxLength: 30 },
);

export function begin(): Sea {
  const server = new ModelServer();
  const you = (name: string, role: You["role"]): You => {
    const may = rightsOf(role);
    const bound = !may.includes("trips") && { trip: trips[0] };
    return { device: name, name: `${name}'s phone`, role, may, ...bound };
  };
  const phones = [you("ann", "skipper"), you("ben", "mate"), you("cy", "mate"), you("dee", "guest")];
  return { server, phones: phones.map((who) => new Phone(who, server)) };
}

export async function happen({ server, phones }: Sea, event: Event): Promise<void> {
  switch (event.do) {
    case "write":
      // A guest's own other notes are no part of the boat's log.
      return phones[event.phone]?.write(
        trips[event.phone === 3 ? 2 * event.trip : event.trip] as string,
        event.record,
        event.value,
        event.at,
      );
    case "trip":
      return phones[event.phone]?.sayOf(trips[event.phone === 3 ? 0 : event.trip] as string, event.says);
    case "bring":
      return phones[3]?.bring(trips[2], trips[0]);
    case "exchange":
      await phones[event.phone]?.exchange([...event.luck], event.crashAt);
      return;
    case "restore":
      return server.restore(Math.floor(event.part * server.log.length), event.told);
    case "spoil": {
      // An entry that nobody holds any more but the server's disk stays lost; here somebody always does.
      const no = Math.ceil(event.part * server.log.length);
      if (no > 0) server.spoilt.add(no);
      return;
    }
    case "revoke": {
      const lost = phones[event.phone] as Phone;
      lost.enrolled = false;
      const before = await lost.held();
      expect((await lost.exchange([])) ?? {}).toMatchObject({ trouble: "stranger" });
      expect((await lost.held()).map(content)).toEqual(before.map(content));
      lost.enrolled = true;
      return;
    }
    case "file": {
      // Notes of one phone saved to a file and loaded on another.
      const from = phones[event.from] as Phone;
      const to = phones[event.to] as Phone;
      if (event.to === 3) return;
      const filed = (await from.book.unsent()).map((entry) => ({
        ...content(entry),
        by: entry.by ?? from.you.device,
        byName: entry.byName ?? from.you.name,
      }));
      await to.book.adopt(filed, "somebody");
      return;
    }
  }
}

/** Fair weather for everybody, until nobody has anything left to say. */
export async function heal({ phones }: Sea): Promise<void> {
  for (let round = 0; round < 4; round++) {
    for (const one of phones) expect(await one.exchange([])).not.toHaveProperty("trouble");
  }
}

export async function expectWhole({ server, phones }: Sea, survivors = phones): Promise<void> {
  const all = new Map(server.log.map((entry) => [entry.id, entry]));
  expect(all.size).toBe(server.log.length);
  for (const one of survivors) {
    expect(server.spoilt.size).toBe(0);
    const held = await one.held();
    const guest = !one.you.may.includes("trips");
    const seen = server.tripsOf(one.you);
    const due = server.log.filter((entry) => !guest || seen.includes(entry.trip));
    const sent = held.filter(({ no }) => no !== undefined);
    expect(new Map(sent.map((e) => [e.id, { no: e.no, ...content(e) }]))).toEqual(
      new Map(due.map((e) => [e.id, { no: e.no, ...content(e) }])),
    );
    expect(sent).toHaveLength(due.length);
    // What this phone wrote is on the server, or counted and told as what is not; none of it is gone.
    const standing = await one.book.standing();
    const back = [...standing.refused, ...standing.held];
    for (const draft of one.saved) {
      const here = held.find(({ id }) => id === draft.id);
      expect(here).toMatchObject(draft);
      if (!here?.replaced && !back.some(({ id }) => id === draft.id))
        expect(all.get(draft.id)).toMatchObject(draft);
    }
    expect(standing).toMatchObject({ unsent: 0, kept: [], photos: [], heldPhotos: [] });
    expect(countOf(standing)).toBe(guest ? back.length : 0);
    expect(server.holds.get(one.you.device)).toBe(countOf(standing));
    if (guest)
      for (const { trip, kind, refused } of back)
        expect(
          trip === trips[2] || refused?.code === "others" || (kind === "trip" && refused?.code === "ends"),
        ).toBe(true);
    const counts = one.saved.map((draft) => held.find(({ id }) => id === draft.id)?.n);
    expect(counts).toEqual(counts.map((_, i) => i + 1));
  }
}
