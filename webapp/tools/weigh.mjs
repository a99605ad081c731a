// What the first load weighs over the wire.
import { readdirSync, statSync } from "node:fs";
import { join } from "node:path";

const dist = join(import.meta.dirname, "../../embed/dist");

/**
 * Bytes that the first load may weigh, all in; of it what it takes to the first answer; and of that what is shown first, the
 * calculations not in it.
 */
export const budget = 700_000;
export const answerBudget = 650_000;
export const shellBudget = 60_000;

// Not part of it are the icons of the home screen, the door for phones that came by plain http, the words of a language
// for those who do not use it, and the tables of tide and current, which come after it.
const apart = /^(door\.html|tides\/|assets\/(door-|words\/))/;

const first = /^(index\.html|palette\.js|hire\.js|assets\/(shell|index)-.*)$/;
const calculates = /^(calc\.wasm|wasm_exec\.js|worker\.js)$/;

/** What is sent for each file: its brotli form where there is one; and for all of the first load. */
export function weigh() {
  const files = readdirSync(dist, { recursive: true }).filter((name) => statSync(join(dist, name)).isFile());
  const sent = files
    .filter((name) => !name.endsWith(".gz") && !name.endsWith(".png") && name !== ".keep")
    .filter((name) => !files.includes(`${name}.br`))
    .sort()
    .map((name) => ({
      name: name.replace(/\.br$/, ""),
      size: statSync(join(dist, name)).size,
      apart: apart.test(name),
    }));
  const weight = (files) => files.reduce((sum, { size }) => sum + size, 0);
  const shell = weight(sent.filter(({ name }) => first.test(name)));
  return {
    sent,
    all: weight(sent.filter(({ apart }) => !apart)),
    answer: shell + weight(sent.filter(({ name }) => calculates.test(name))),
    shell,
  };
}
