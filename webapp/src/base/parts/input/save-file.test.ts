import { expect, it } from "vitest";
import { Died, Refused } from "../../desk/desk";
import { text } from "../../text/text";
import { told } from "./save-file";

it("tells why no file came of a tap, and what is left out of one that did", async () => {
  const fails = (fault: Error) => told(() => Promise.reject(fault));
  expect(await fails(new Refused([{ field: "notes", text: "has too many", code: "count" } as never]))).toBe(
    text.notes.formats.tooMuch,
  );
  expect(await fails(new Died())).toBe(text.notes.formats.failed);
  expect(await fails(new RangeError("out of memory"))).toBe(text.notes.formats.failed);
  expect(await told(async () => undefined)).toBe("");
  expect(await told(async () => "1 left out")).toBe("1 left out");
});
