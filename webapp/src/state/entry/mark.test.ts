import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { expect, it } from "vitest";
import type { Entry } from "./entry";
import { deviceOf, type Key, makeKey, markOf, proofOf } from "./mark";

const entry: Entry = {
  id: "01997c3e-9b2a-7c41-8f0e-3d5a1b6c7d8e",
  record: "5b0e8c1a-42d7-4d6f-9a53-0c1f2e3d4b5a",
  kind: "note",
  trip: "c2a9f0d4-7b1e-4f38-8e65-9d0b1a2c3f4e",
  prev: ["01997c3e-9b2a-7c41-8f0e-3d5a1b6c7d8f"],
  set: { text: 'é \n \u007e\t 😀 \ufb33 "\\ </b>', more: { b: -0, a: [1e15, 1e-7, 0.1 + 0.2, null, true] } },
  at: 1_938_081_600_000,
  n: 17,
};

/** The server's own judgement of what a phone has signed. */
const judged = (asked: object): unknown =>
  JSON.parse(
    execFileSync("go", ["run", "./server/log/entry/testdata/judge"], {
      cwd: join(import.meta.dirname, "../../../.."),
      input: JSON.stringify(asked),
      encoding: "utf8",
    }),
  );

it("a mark is good to the server for this entry under this name, and for nothing else", async () => {
  const key = (await makeKey()) as Key;
  const device = await deviceOf(key);
  const mark = await markOf(key, "Ann's phone", entry);
  const text = JSON.stringify({ ...entry, by: device, byName: "Ann's phone", mark });
  const { strike: _, ...struck } = { ...entry, strike: true as const };
  delete (struck as Partial<Entry>).set;
  const striking = { ...struck, strike: true as const };
  expect(
    judged({
      entries: [
        text,
        text.replace("Ann's", "Bob's"),
        text.replace('"n":17', '"n":18'),
        text.replace(/"by":"......../, '"by":"00000000'),
        JSON.stringify({
          ...striking,
          by: device,
          byName: "Ann's phone",
          mark: await markOf(key, "Ann's phone", striking),
        }),
      ],
      key: key.public,
      text: "wirewake key\nold",
      proof: await proofOf(key, "key", "old"),
    }),
  ).toEqual({ proven: [true, false, false, false, true], device, signed: true });
});
