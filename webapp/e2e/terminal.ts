/** What the terminal answers to the same question. */
import { execFileSync } from "node:child_process";
import { join } from "node:path";
import { expect, type Page } from "./app";

const binary = join(import.meta.dirname, "../../bin/wirewake");

export function calc<A>(name: string, request: object): A {
  return JSON.parse(
    execFileSync(binary, ["calc", name], { input: JSON.stringify(request), encoding: "utf8" }),
  );
}

/** Both tables are on the phone. */
export const tablesKept = (page: Page) =>
  expect
    .poll(() =>
      page.evaluate(async () => {
        const kept = await Promise.all(["east", "west"].map((one) => caches.match(`/tides/${one}.bin`)));
        return kept.every(Boolean);
      }),
    )
    .toBe(true);
