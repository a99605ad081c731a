import { beforeEach, expect, it, vi } from "vitest";
import type { Asking } from "../log/disk/db";

const kept: { [key: string]: unknown } = {};
const came: unknown[] = [];

vi.mock("../log/log", () => ({
  book: {
    meta: async (key: string) => kept[key],
    setMeta: async (key: string, value: unknown) => {
      kept[key] = value;
    },
  },
  you: { value: undefined },
}));
vi.mock("../exchange/exchange", () => ({ exchangeOver: async () => undefined }));
vi.mock("./join", () => ({
  aboard: async (you: unknown) => {
    came.push(you);
  },
}));

type Answer = { status: number; body: object } | undefined;

/** What the server answers next to each path, in order; nothing: it is out of reach. */
let answers: { [path: string]: Answer[] };
let sent: { path: string; body: Record<string, string> }[];

const told = (word: string, ask: string) => ({
  status: 200,
  body: { ask, word, lasts: 600_000, answerable: true },
});
const no = (code: string) => ({ status: 403, body: { code, text: "no" } });

/** Lets the phone look once, and what it then does come to its end. */
async function looks(): Promise<void> {
  const before = sent.length;
  await vi.advanceTimersByTimeAsync(2500);
  await vi.waitFor(() => expect(sent.length).toBeGreaterThan(before));
  await vi.advanceTimersByTimeAsync(50);
}

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout", "Date"] });
  for (const key of Object.keys(kept)) delete kept[key];
  came.length = 0;
  answers = {};
  sent = [];
  vi.stubGlobal("navigator", { languages: ["en"] });
  vi.stubGlobal("document", { hidden: false, addEventListener: () => undefined });
  vi.stubGlobal("fetch", async (path: string, init: { body: string }) => {
    sent.push({ path, body: JSON.parse(init.body) });
    const answer = answers[path]?.shift();
    if (!answer) throw new TypeError("out of reach");
    return Response.json(answer.body, { status: answer.status });
  });
});

it("asks once, waits, and is aboard with the key that it asked with", async () => {
  const { ask, asking, keepAsking } = await import("./ask");
  await keepAsking();
  answers["/api/asks"] = [told("limoda", "secret-of-the-ask")];
  await ask("Gus");
  expect(asking.value).toMatchObject({ name: "Gus", word: "limoda", answerable: true });
  const you = { device: "0197c3a0-0000-7000-8000-000000000001", name: "Gus", role: "guest", may: [] };
  answers["/api/enrol"] = [
    { status: 202, body: { word: "limoda", lasts: 1 } },
    { status: 200, body: you },
  ];
  await looks();
  expect(asking.value?.word).toBe("limoda");
  await looks();
  await vi.waitFor(() => expect(asking.value).toBeUndefined());
  expect(came).toEqual([{ ...you, marks: true }]);
  expect(kept.asking).toBeUndefined();
  expect(new Set(sent.map(({ body }) => body.key)).size).toBe(1);
  expect(sent[1]?.body.ask).toBe("secret-of-the-ask");
});

it("where it had to make room it asks again with the same key; late, it has lapsed", async () => {
  const { ask, asking, keepAsking } = await import("./ask");
  await keepAsking();
  answers["/api/asks"] = [told("limoda", "first"), told("sobina", "second")];
  await ask("Gus");
  answers["/api/enrol"] = [no("invitation")];
  await looks();
  await vi.waitFor(() => expect(asking.value?.word).toBe("sobina"));
  expect((asking.value as Asking).over).toBeUndefined();
  expect(new Set(sent.map(({ body }) => body.key)).size).toBe(1);
  await vi.setSystemTime(Date.now() + 600_000);
  answers["/api/enrol"] = [no("invitation")];
  await looks();
  await vi.waitFor(() => expect(asking.value?.over).toBe("lapsed"));
});

it("out of reach it waits on and says so; a no is the end, also after the page is loaded anew", async () => {
  const { ask, asking, keepAsking, unheard } = await import("./ask");
  await keepAsking();
  answers["/api/asks"] = [told("limoda", "first")];
  await ask("Gus");
  await looks();
  await vi.waitFor(() => expect(unheard.value).toEqual({ kind: "unreachable" }));
  expect(asking.value?.over).toBeUndefined();
  answers["/api/enrol"] = [no("refused")];
  await looks();
  await vi.waitFor(() => expect(asking.value?.over).toBe("refused"));
  const before = sent.length;
  vi.resetModules();
  const anew = await import("./ask");
  await anew.keepAsking();
  await vi.advanceTimersByTimeAsync(10_000);
  expect(anew.asking.value).toMatchObject({ name: "Gus", over: "refused" });
  expect(sent.length).toBe(before);
});
