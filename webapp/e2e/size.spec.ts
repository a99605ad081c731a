import { statSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "@playwright/test";
import { answerBudget, budget, shellBudget, weigh } from "../tools/weigh.mjs";

const kB = (bytes: number) => `${(bytes / 1000).toFixed(1)} kB`;

test("the first load keeps to what it may weigh", async () => {
  const { sent, all, answer, shell } = weigh();
  console.log(
    `The first load is ${kB(all)} of ${kB(budget)} over the wire: ${kB(answer)} to the first answer, ${kB(shell)} of these to what is shown first.`,
  );
  const files = sent.filter(({ apart }) => !apart).sort((a, b) => b.size - a.size);
  // A build that is not there, or calls them otherwise, weighs nothing.
  expect(files[0]?.name).toBe("calc.wasm");
  expect(files.map(({ name }) => name)).toEqual(expect.arrayContaining(["wasm_exec.js", "worker.js"]));
  expect(all, files.map(({ name, size }) => `${name} ${kB(size)}`).join("\n")).toBeLessThanOrEqual(budget);
  expect(answer).toBeLessThanOrEqual(answerBudget);
  // A build that calls it otherwise has none.
  expect(shell).toBeGreaterThan(20_000);
  expect(shell).toBeLessThanOrEqual(shellBudget);
});

test("the program keeps to what it may weigh, the app in it", () => {
  const { size } = statSync(join(import.meta.dirname, "../../bin/wirewake"));
  console.log(`The program is ${(size / 1e6).toFixed(2)} MB of 15.`);
  expect(size).toBeLessThanOrEqual(15_000_000);
});
