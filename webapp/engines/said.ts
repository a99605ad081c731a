/** Waits for what a program says of itself. */
import type { ChildProcess } from "node:child_process";
import type { Readable } from "node:stream";

/** The first match in what comes out of it. */
export function said(program: ChildProcess, out: Readable, wanted: RegExp): Promise<RegExpExecArray> {
  return new Promise((done, fail) => {
    let all = "";
    out.setEncoding("utf8").on("data", (chunk: string) => {
      all += chunk;
      const found = wanted.exec(all);
      if (found) done(found);
    });
    program.once("error", fail);
    program.once("exit", (code) => fail(new Error(`${program.spawnfile} ended with ${code}: ${all}`)));
  });
}
