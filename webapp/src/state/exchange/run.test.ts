import { expect, it } from "vitest";
import type { Book } from "../log/disk/book";
import { run } from "./run";

it("tells of an answer before what it brings is taken: what others noted is dated by it", async () => {
  const steps: string[] = [];
  const batch = { cursor: { epoch: "", since: 0, check: "", more: false }, entries: [], holds: 0 };
  const book = {
    batch: async () => batch,
    take: async () => {
      steps.push("taken");
    },
  } as unknown as Book;
  const answer = {
    version: 1,
    epoch: "e",
    taken: [],
    refused: [],
    entries: [],
    upto: 0,
    check: "d",
    more: false,
    spoilt: [],
    now: 7,
    you: { device: "d", name: "Ann's phone", role: "mate", may: [] },
    photos: { wanted: [] },
  };
  const { trouble } = await run(
    book,
    async () => new Response(JSON.stringify(answer)),
    undefined,
    undefined,
    ({ now }) => steps.push(`of ${now}`),
  );
  expect(trouble).toBeUndefined();
  expect(steps).toEqual(["of 7", "taken"]);
});
