/** The printed placard, as a phone's camera sees it: a little turned, a little out of focus. Read by ZBar. */
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { expect, test } from "./app";
import { startServer } from "./server";

const address = "http://192.168.77.7:8610";
const network = { ssid: "Demo; boat", password: 'spoon\\"s:42' };
const join = 'WIFI:T:WPA;S:Demo\\; boat;P:spoon\\\\\\"s\\:42;;';

/** What ZBar, which shares no code with the library that draws, reads from a picture: all codes in it. */
function read(picture: Buffer, name: string): string[] {
  const file = test.info().outputPath(name);
  writeFileSync(file, picture);
  return execFileSync("zbarimg", ["--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", file], {
    encoding: "utf8",
  })
    .trim()
    .split("\n")
    .sort();
}

const millimetre = 96 / 25.4;
const margin = 8;

const papers = [
  ["A5", 148, 210, "en"],
  ["A5", 148, 210, "es,en"],
  ["letter", 215.9, 279.4, "en"],
  ["letter", 215.9, 279.4, "en,es"],
] as const;

test("on every paper it is one page, and both codes are read from a blurred and tilted picture", async ({
  page,
}) => {
  const server = await startServer("--address", address.replace("http", "https"));
  const placards = papers.map(([, , , language]) =>
    server.placard(network, "--language", language, "--boat", "Demo Spoon of Nowhere"),
  );
  await server.stop();
  for (const [i, [paper, width, height, language]] of papers.entries())
    await test.step(`on ${paper}, in ${language}`, async () => {
      await page.emulateMedia({ media: null });
      await page.setContent(placards[i] ?? "");
      const pdf = await page.pdf({ width: `${width}mm`, height: `${height}mm` });
      expect(pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)).toHaveLength(1);

      await page.emulateMedia({ media: "print" });
      const [across, down] = [width, height].map((side) => Math.round((side - 2 * margin) * millimetre));
      await page.setViewportSize({ width: across ?? 0, height: down ?? 0 });
      const sheet = await page.screenshot({ path: `screens/placard-${paper}-${language}.png` });
      await page.setViewportSize({ width: 900, height: 1200 });
      for (const [how, style] of Object.entries({
        straight: "",
        tilted: "transform: perspective(1500px) rotateY(24deg) rotateZ(11deg)",
        "out of focus": "filter: blur(1.6px); transform: rotate(-8deg) scale(0.9)",
        "dim and faint":
          "filter: contrast(0.35) brightness(0.8) blur(0.8px); transform: perspective(1200px) rotateX(28deg)",
      })) {
        await page.setContent(
          `<body style="margin: 90px; background: #777"><img src="data:image/png;base64,${sheet.toString("base64")}" style="width: 640px; ${style}">`,
        );
        const name = `${paper}-${language}-${how}`;
        expect(read(await page.screenshot(), `${name}.png`), name).toEqual([join, address].sort());
      }
    });
});
