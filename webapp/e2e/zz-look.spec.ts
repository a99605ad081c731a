import { writeFileSync } from "node:fs";
import { answered, settled, test } from "./app";
import { Boat } from "./boat";
import { faults } from "./layout";
import { pass, quiet } from "./phone";
import { hold, type PoseName, poseNames } from "./poses";
import { prepare, screens } from "./screens";

const only = process.env.LOOK?.split(",");
const inPoses = (process.env.POSES?.split(",") ?? poseNames) as PoseName[];
const language = process.env.LANGUAGE ?? "en";
const palette = process.env.PALETTE ?? "day";
for (const [part, ways] of Object.entries(screens)) {
  test(`look ${part}`, async ({ page, server }) => {
    if (process.env.PART && process.env.PART !== part) return;
    await page.goto("/#/lines");
    await answered(page);
    await settled(page);
    await prepare(page, server);
    const boat = await Boat.aboard(page);
    const paths: [string, string][] = [];
    for (const [name, way] of Object.entries(ways)) {
      await hold(page, "small phone");
      await page.goto("/#/lines");
      const path = await way(page, boat);
      paths.push([name, path]);
      if (language !== "en") continue;
      await one(name, path);
    }
    if (language !== "en") {
      await page.evaluate((l) => localStorage.setItem("language", l), language);
      await page.reload();
      for (const [name, path] of paths) await one(name, path);
    }
    async function one(name: string, path: string) {
      if (only && !only.includes(name)) return;
      await page.goto(`/#/${path}`);
      await pass(page, 400);
      await quiet(page);
      await pass(page, 600);
      for (const pose of inPoses) {
        await hold(page, pose);
        await page.evaluate((p) => (document.documentElement.dataset.palette = p), palette);
        const t0 = performance.now();
        const wrong = await faults(page);
        if (wrong.length)
          console.log(
            `## ${name}, ${pose} (${Math.round(performance.now() - t0)} ms)\n   ${wrong.join("\n   ")}`,
          );
        if (process.env.SHOOT)
          writeFileSync(
            `${process.env.SHOOT}/${name}--${pose.replaceAll(" ", "_").replace("%", "")}.jpg`,
            await page.screenshot({ type: "jpeg", quality: 80 }),
          );
      }
    }
  });
}
