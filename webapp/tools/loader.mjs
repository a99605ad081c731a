// The Go toolchain's loader of its WebAssembly, shortened, under its own notice of copyright: as it comes, a third of what
// it weighs over the wire are names and spaces.
//
//	node tools/loader.mjs FROM TO
import { readFileSync, writeFileSync } from "node:fs";
import { minifySync } from "vite";

const [, , from, to] = process.argv;
const source = readFileSync(from, "utf8");
const [notice] = /^(\/\/.*\n)+/.exec(source) ?? [];
if (!notice) throw new Error(`${from} begins with no notice of copyright`);
writeFileSync(to, notice + minifySync(from, source).code);
