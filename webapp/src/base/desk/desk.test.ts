import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { Desk, type DeskWorker, Died, Refused } from "./desk";
import type { FromDesk, ToDesk } from "./messages";

/** A worker that does what the test says. */
class FakeWorker implements DeskWorker {
  asked: ToDesk[] = [];
  ended = false;
  onmessage: DeskWorker["onmessage"] = null;
  onerror: DeskWorker["onerror"] = null;
  postMessage(message: ToDesk) {
    this.asked.push(message);
  }
  terminate() {
    this.ended = true;
  }
  say(data: FromDesk) {
    this.onmessage?.({ data });
  }
  get last(): ToDesk {
    return this.asked.at(-1) as ToDesk;
  }
  answer(answer: unknown) {
    this.say({ id: this.last.id, reply: JSON.stringify({ answer }) });
  }
}

let workers: FakeWorker[];
let desk: Desk;
const newestWorker = () => workers.at(-1) as FakeWorker;
const thumb = (lineOut: number) => ({ rods: [{ lineOut }] });
const lineOutOf = (asked: ToDesk) => JSON.parse(asked.request).rods[0].lineOut;

beforeEach(() => {
  vi.useFakeTimers();
  workers = [];
  desk = new Desk(
    () => {
      const worker = new FakeWorker();
      workers.push(worker);
      return worker;
    },
    { start: 1000, answer: 100, failures: 3, well: 5000 },
  );
});

afterEach(() => vi.useRealTimers());

function started(): FakeWorker {
  desk.start();
  const worker = newestWorker();
  worker.say({ ready: true });
  return worker;
}

describe("asking", () => {
  it("starts with the first question and answers in order, one at a time", async () => {
    const first = desk.ask("thumb", thumb(1));
    const second = desk.ask("thumb", thumb(2));
    const worker = newestWorker();
    expect(desk.state.value).toBe("starting");
    worker.say({ ready: true });
    expect(desk.state.value).toBe("ready");
    expect(worker.asked.map(lineOutOf)).toEqual([1]);
    worker.answer({ depths: [10] });
    expect(worker.asked.map(lineOutOf)).toEqual([1, 2]);
    worker.answer({ depths: [20] });
    expect((await first).depths).toEqual([10]);
    expect((await second).depths).toEqual([20]);
  });

  it("gives the desk's problems by field", async () => {
    const asked = desk.ask("thumb", thumb(-1));
    const problem = { field: "rods[0].lineOut", code: "range", text: "must be from 0 to 2000 m" };
    newestWorker().say({ id: 1, reply: JSON.stringify({ problems: [problem] }) });
    await expect(asked).rejects.toEqual(new Refused([problem as never]));
  });
});

describe("the newest of many", () => {
  it("takes the place of the one that waits, never of the one being answered", async () => {
    const worker = started();
    const asked = [1, 2, 3, 4].map((n) => desk.newest("thumb", thumb(n)));
    worker.answer({ depths: [1] });
    worker.answer({ depths: [4] });
    expect(worker.asked.map(lineOutOf)).toEqual([1, 4]);
    expect((await Promise.all(asked)).map((a) => a?.depths[0])).toEqual([1, undefined, undefined, 4]);
  });

  it("leaves questions of another name, and those that must be answered, alone", async () => {
    const worker = started();
    desk.newest("thumb", thumb(1));
    desk.ask("thumb", thumb(2));
    desk.newest("gear", {});
    desk.newest("thumb", thumb(3));
    for (let i = 0; i < 4; i++) worker.answer({});
    expect(worker.asked.map((m) => (m.name === "gear" ? "gear" : lineOutOf(m)))).toEqual([1, 2, "gear", 3]);
  });
});

describe("a worker that fails", () => {
  it("is replaced; the question it died of is told, those that waited are answered by the next", async () => {
    const worker = started();
    const fatal = desk.ask("thumb", thumb(1));
    const waiting = desk.ask("thumb", thumb(2));
    worker.say({ died: "unreachable" });
    await expect(fatal).rejects.toBeInstanceOf(Died);
    expect(worker.ended).toBe(true);
    expect(desk.state.value).toBe("restarted");
    expect(desk.restarts.value).toBe(1);
    newestWorker().say({ ready: true });
    newestWorker().answer({ depths: [2] });
    expect((await waiting).depths).toEqual([2]);
    // What is told of it can be read.
    expect(desk.state.value).toBe("restarted");
    vi.advanceTimersByTime(5000);
    expect(desk.state.value).toBe("ready");
  });

  it("hears nothing more from one that was replaced", async () => {
    const worker = started();
    desk.ask("thumb", thumb(1)).catch(() => undefined);
    worker.say({ died: "once" });
    worker.say({ died: "twice" });
    worker.onerror?.({ message: "and again" });
    expect(workers).toHaveLength(2);
  });

  it("is replaced when it gives no answer in time", async () => {
    started();
    const asked = desk.ask("thumb", thumb(1));
    vi.advanceTimersByTime(101);
    await expect(asked).rejects.toBeInstanceOf(Died);
    expect(workers).toHaveLength(2);
  });

  it("is given up after failing again and again, until a person starts it", async () => {
    desk.start();
    const asked = desk.ask("thumb", thumb(1));
    asked.catch(() => undefined);
    for (let i = 0; i < 3; i++) newestWorker().onerror?.({ message: "no such file" });
    expect(desk.state.value).toBe("stopped");
    expect(workers).toHaveLength(3);
    await expect(asked).rejects.toBeInstanceOf(Died);
    await expect(desk.ask("thumb", thumb(2))).rejects.toBeInstanceOf(Died);
    const restarts = desk.restarts.value;
    desk.start();
    newestWorker().say({ ready: true });
    expect(desk.state.value).toBe("ready");
    expect(desk.restarts.value).toBe(restarts + 1);
  });

  it("that answers in between may fail again later", async () => {
    const worker = started();
    for (let i = 0; i < 5; i++) {
      const asked = desk.ask("thumb", thumb(i));
      newestWorker().answer({ depths: [i] });
      await asked;
      vi.advanceTimersByTime(5000);
      newestWorker().say({ died: "now and then" });
      newestWorker().say({ ready: true });
    }
    expect(worker.ended).toBe(true);
    expect(desk.state.value).not.toBe("stopped");
  });

  it("at the same request whenever it is asked again is given up, whatever it answers in between", async () => {
    started();
    for (let i = 0; i < 3; i++) {
      expect(desk.state.value).not.toBe("stopped");
      const fatal = desk.ask("thumb", thumb(1));
      newestWorker().say({ died: "at this one" });
      await expect(fatal).rejects.toBeInstanceOf(Died);
      if (i === 2) break;
      newestWorker().say({ ready: true });
      const other = desk.ask("thumb", thumb(2));
      newestWorker().answer({ depths: [2] });
      await other;
      vi.advanceTimersByTime(1000);
    }
    expect(desk.state.value).toBe("stopped");
    expect(workers).toHaveLength(3);
    vi.advanceTimersByTime(10_000);
    expect(desk.state.value).toBe("stopped");
  });
});
