/** When the log is read for a season: counted, since a time says nothing on a busy machine. */
import "fake-indexeddb/auto";
import { expect, it, vi } from "vitest";
import { desk } from "../../base/desk/desk";
import { uuid } from "../entry/uuid";
import { book, summaries } from "../log/log";
import { loadLog } from "../log/saying/load";
import { keepLast } from "./last";
import { followSeason, prepare, type Read, reading, season } from "./read";

vi.stubGlobal("requestAnimationFrame", (draw: () => void) => setTimeout(draw));
vi.spyOn(desk, "newest").mockResolvedValue(undefined);

const picture: Read = {
  answer: { events: 7, factors: [] } as unknown as Read["answer"],
  ...{ names: [], whole: true, of: "strikes", question: "strikes|||", at: 1 },
};

it("shows the picture that was kept before a trip is read, however many there are", async () => {
  for (let i = 0; i < 30; i++) {
    const trip = uuid();
    const set = { opened: i, closed: i + 1 };
    await book.append([{ id: uuid(), record: trip, kind: "trip", trip, prev: [], set, at: i }]);
  }
  await loadLog();
  expect(summaries.value).toHaveLength(30);
  await keepLast(picture);
  const reads = vi.spyOn(book, "entriesOf");

  // Nobody looks: what was kept is enough, unless something was noted since.
  await prepare(false);
  expect(reads).not.toHaveBeenCalled();

  const readBefore: number[] = [];
  const stop = season.subscribe((shown) => shown && readBefore.push(reads.mock.calls.length));
  const end = followSeason();
  await vi.waitFor(() => expect(season.value?.answer.events).toBe(7));
  expect(readBefore).toEqual([0]);
  expect(reading.value).toBe(true);
  stop();
  await vi.waitFor(() => expect(reads).toHaveBeenCalledTimes(30));
  end();
  reads.mockClear();

  // Who has gone again before it was drawn has nothing read.
  followSeason()();
  await new Promise((done) => setTimeout(done, 50));
  expect(reads).not.toHaveBeenCalled();
});
