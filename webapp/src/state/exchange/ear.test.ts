import { beforeEach, expect, it, vi } from "vitest";
import { Ear, type Stream } from "./ear";

class Pretended implements Stream {
  onmessage: Stream["onmessage"] = null;
  onerror: Stream["onerror"] = null;
  closed = false;
  close() {
    this.closed = true;
  }
  say(data: unknown) {
    this.onmessage?.(new MessageEvent("message", { data }));
  }
  breakOff() {
    this.onerror?.(new Event("error"));
  }
}

let streams: Pretended[];
const heard = vi.fn();
const lost = vi.fn();
const ear = () =>
  new Ear(
    () => {
      const one = new Pretended();
      streams.push(one);
      return one;
    },
    heard,
    lost,
  );

beforeEach(() => {
  streams = [];
  vi.clearAllMocks();
  vi.useFakeTimers();
});

it("hears a word, and passes over what is none", () => {
  ear().listen();
  streams[0]?.say('{"epoch":"e","upto":7,"more":"later"}');
  expect(heard.mock.calls).toEqual([[{ epoch: "e", upto: 7 }]]);
  for (const bad of ["", "{", "null", '{"epoch":"e"}', '{"epoch":"e","upto":-1}', '{"epoch":5,"upto":1}', 5])
    streams[0]?.say(bad);
  expect(heard).toHaveBeenCalledTimes(1);
});

it("lets go of a stream that breaks off, and never begins another by itself", async () => {
  const one = ear();
  const over = one.listen();
  streams[0]?.say('{"epoch":"e","upto":1}');
  streams[0]?.breakOff();
  await over;
  expect(streams[0]?.closed).toBe(true);
  expect(lost).toHaveBeenCalledTimes(1);
  vi.advanceTimersByTime(3_600_000);
  expect(streams).toHaveLength(1);
  one.listen();
  expect(streams).toHaveLength(2);
});

it("a server that has no such stream, or no room for it, is not asked after it", () => {
  ear().listen();
  streams[0]?.breakOff();
  expect(lost).not.toHaveBeenCalled();
});

it("a line that has gone dead without a word is let go", () => {
  const one = ear();
  one.listen();
  for (let i = 0; i < 10; i++) {
    streams[0]?.say('{"epoch":"e","upto":1}');
    vi.advanceTimersByTime(30_000);
  }
  expect(one.listening).toBe(true);
  vi.advanceTimersByTime(60_000);
  expect(one.listening).toBe(false);
  expect(streams[0]?.closed).toBe(true);
  expect(lost).toHaveBeenCalledTimes(1);
});

it("stopped, it is silent, and listening twice is one stream", async () => {
  const one = ear();
  const over = one.listen();
  one.listen();
  expect(streams).toHaveLength(1);
  streams[0]?.say('{"epoch":"e","upto":1}');
  one.stop();
  await over;
  streams[0]?.breakOff();
  vi.advanceTimersByTime(3_600_000);
  expect(lost).not.toHaveBeenCalled();
  expect(streams[0]?.closed).toBe(true);
});
