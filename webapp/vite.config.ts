import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import preact from "@preact/preset-vite";
import { VitePWA } from "vite-plugin-pwa";
import { defineConfig } from "vitest/config";
import { neededByWords, wordsFile } from "./src/base/sw/words.ts";
import { frame as en } from "./src/base/text/en/frame.ts";

export const outDir = process.env.WIREWAKE_OUT ?? join(import.meta.dirname, "../embed/dist");

/** The browser itself checks each file against this when the service worker fetches it. */
const integrityOf = (url: string) =>
  `sha256-${createHash("sha256")
    .update(readFileSync(join(outDir, url)))
    .digest("base64")}`;

/** Which calculations the app is built with; none where they are not built, as for its unit tests. */
function calc(): string {
  const module = join(import.meta.dirname, "public/calc.wasm");
  return existsSync(module)
    ? createHash("sha256").update(readFileSync(module)).digest("hex").slice(0, 16)
    : "";
}

/** The words of the tests' own language are made of these. */
const english = /\/base\/text\/(en\/\w+|spoken\/(en|bare))\.ts$/;

export const description = {
  name: "description",
  transformIndexHtml: (html: string) => html.replace("%DESCRIPTION%", en.app.description),
};

/** The words of a room come with who shows them, and not with the list of all rooms. */
export const treeshake = {
  moduleSideEffects: [{ test: /\/src\/base\/text\/rooms/, sideEffects: false }],
};

/** What only comes when somebody opens it. */
const opened =
  /\/src\/(app\/rooms|screens\/(crew|fish|locker|notes|pace|tide|wayin|lines\/(plan|rod|start|teach|turn)))\//;

export default defineConfig(({ mode }) => ({
  plugins: [
    preact({ prefreshEnabled: false }),
    description,
    VitePWA({
      strategies: "injectManifest",
      srcDir: "src/base/sw",
      filename: "sw.ts",
      injectRegister: false,
      includeManifestIcons: false,
      manifest: {
        id: "/",
        name: en.app.name,
        short_name: en.app.name,
        description: en.app.description,
        lang: en.language,
        start_url: "/#/lines",
        scope: "/",
        display: "standalone",
        // Black, so that the first thing seen at night is not a white sheet.
        background_color: "#000000",
        theme_color: "#000000",
        icons: [
          { src: "/icons/icon.svg", sizes: "any", type: "image/svg+xml" },
          { src: "/icons/icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "/icons/icon-512.png", sizes: "512x512", type: "image/png" },
          { src: "/icons/maskable-512.png", sizes: "512x512", type: "image/png", purpose: "maskable" },
        ],
      },
      injectManifest: {
        // The PNG icons are for the home screen, which keeps its own copy.
        globPatterns: ["**/*.{html,js,css,wasm,bin,svg,webmanifest}"],
        maximumFileSizeToCacheInBytes: 16 * 1024 * 1024,
        manifestTransforms: [
          (entries) => ({
            manifest: entries.map((entry) => ({ ...entry, integrity: integrityOf(entry.url) })),
            warnings: [],
          }),
        ],
      },
    }),
  ],
  worker: {
    format: "iife",
    // Its name is known before anything that was built is read (public/hire.js).
    rolldownOptions: { output: { entryFileNames: "worker.js" } },
  },
  define: { "import.meta.env.CALC": JSON.stringify(calc()) },
  // Lightning CSS, the minifier, need not prepare colours of light-dark(), which nothing here uses: its flag of that name.
  css: { lightningcss: { exclude: 1 << 20 } },
  build: {
    outDir,
    emptyOutDir: true,
    rolldownOptions: {
      treeshake,
      output: {
        // Few files: what is shown first, what comes after it, and the rooms.
        codeSplitting: {
          groups: [
            {
              name: "words",
              test: (id: string) => neededByWords.test(id) || (mode === "pseudo" && english.test(id)),
              priority: 3,
            },
            { name: "shell", tags: ["$initial"], priority: 2 },
            { name: "shared", minShareCount: 2, priority: 1 },
            // Each by itself would be smaller when it is opened, but all of them weigh 8 kB more.
            { name: "rooms", test: opened, priority: 0 },
          ],
        },
        chunkFileNames: ({ facadeModuleId }) => {
          const [, language] = /\/base\/text\/spoken\/([\w-]+)\.ts$/.exec(facadeModuleId ?? "") ?? [];
          return language ? wordsFile(language) : "assets/[name]-[hash].js";
        },
      },
    },
    target: "es2022",
    // A hundredth less over the wire than the minifier that Vite has by itself.
    minify: "terser",
    terserOptions: { module: true, ecma: 2020, compress: { passes: 3 } },
    modulePreload: { polyfill: false },
    // Everything inlined as data would be fetched before it is needed.
    assetsInlineLimit: 0,
  },
  test: {
    include: ["src/**/*.test.ts", "src/**/*.test.tsx"],
    environment: "node",
    // A tenth less of the processor than a process for each.
    pool: "threads",
    setupFiles: ["tools/no-browser.ts", "tools/patience.ts"],
  },
}));
