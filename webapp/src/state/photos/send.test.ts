import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Photo } from "../log/disk/db";
import { type PutPart, type Sent, sendPhoto } from "./send";

const photo = (size: number): Photo => ({
  sha256: "a".repeat(64),
  type: "image/jpeg",
  bytes: Uint8Array.from({ length: size }, (_, i) => i % 251).buffer,
});

const part = 100;

/** A server that keeps what comes, as server/sync/README.md tells it. */
function server() {
  let kept = new Uint8Array();
  let whole = false;
  const put: PutPart = async (_, range, body) => {
    const [, first, total] = /^bytes (?:(\d+)-\d+|\*)\/(\d+)$/.exec(range) ?? [];
    if (whole) return Response.json({ have: Number(total) });
    if (!body) return Response.json({ have: kept.length }, { status: 202 });
    if (Number(first) !== kept.length)
      return Response.json({ code: "offset", have: kept.length }, { status: 409 });
    kept = new Uint8Array([...kept, ...new Uint8Array(await body.arrayBuffer())]);
    whole = kept.length === Number(total);
    return Response.json({ have: kept.length }, { status: whole ? 201 : 202 });
  };
  return { put, kept: () => kept };
}

it("arrives whole over a line that breaks anywhere, part by part", async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 1, max: 5 * part }),
      fc.array(fc.constantFrom("ok", "lost", "answer lost"), { maxLength: 20 }),
      async (size, luck) => {
        const { put, kept } = server();
        const shaky: PutPart = async (...args) => {
          const now = luck.shift() ?? "ok";
          if (now === "lost") throw new TypeError("failed to fetch");
          const response = await put(...args);
          if (now === "answer lost") throw new TypeError("failed to fetch");
          return response;
        };
        const one = photo(size);
        let sent: Sent | "broken" = "broken";
        for (let tries = 0; sent !== "there" && tries < 25; tries++)
          sent = await sendPhoto(one, shaky, part).catch(() => "broken" as const);
        expect(sent).toBe("there");
        expect(kept()).toEqual(new Uint8Array(one.bytes));
      },
    ),
    { numRuns: 50 },
  );
});

describe("answers that bring nothing forward end it", () => {
  it.each([
    ["a server that never has more", 202, { have: 0 }, "store"],
    ["one that contradicts itself", 409, { code: "offset", have: 0 }, "store"],
    ["one that throws it away each time", 422, { code: "hash" }, "hash"],
    ["one that claims more than there is", 202, { have: 1e9 }, "store"],
    ["nonsense", 202, "hello", "store"],
    ["an end that does not come", 202, { have: 1000 }, "store"],
    ["a fault", 500, { code: "fault" }, "fault"],
    ["something else that answers", 502, "<html>", "store"],
    ["a phone that is not aboard", 401, { code: "aboard" }, "aboard"],
    ["a trip that has enough", 409, { code: "enough" }, "enough"],
    ["a photo that nobody names", 404, { code: "nothing" }, "nothing"],
    ["a photo too large", 413, { code: "size" }, "size"],
    ["no photo", 415, { code: "type" }, "type"],
    ["a full disk", 507, { code: "full" }, "full"],
  ])("%s", async (_, status, said, why) => {
    let asked = 0;
    const sent = await sendPhoto(photo(1000), async () => {
      asked++;
      return Response.json(said, { status });
    });
    expect(sent).toEqual({ why });
    expect(asked).toBeLessThan(8);
  });
});
