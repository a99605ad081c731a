/** The way in, for phones that do not have the app yet: built by itself beside the app, and no part of what is kept. */
import { join } from "node:path";
import preact from "@preact/preset-vite";
import { defineConfig } from "vite";
import { description, outDir, treeshake } from "./vite.config.ts";

export default defineConfig({
  plugins: [preact({ prefreshEnabled: false }), description],
  publicDir: false,
  build: {
    outDir,
    emptyOutDir: false,
    rolldownOptions: {
      input: join(import.meta.dirname, "door.html"),
      treeshake,
      output: {
        entryFileNames: "assets/door-[hash].js",
        chunkFileNames: "assets/door-[hash].js",
        assetFileNames: "assets/door-[hash][extname]",
      },
    },
    target: "es2022",
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
  },
});
