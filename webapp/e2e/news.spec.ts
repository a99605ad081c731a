/** A note is on the other phones within two seconds, whoever vouches for the boat's server. */
import { expect, type Page, test } from "./app";
import { calm, comeAboard, row, startTrip, writeNote } from "./notes";
import { phone, within } from "./phone";
import { certifiedBoat, localBoat, type SecureBoat, secureBoat } from "./tls";

const kinds: [string, () => Promise<SecureBoat>][] = [
  ["the boat's own authority", () => secureBoat()],
  ["a certificate of the owner's", () => certifiedBoat("the server")],
  ["something in front of it", () => certifiedBoat("a proxy")],
  ["nobody, on the same computer", localBoat],
];

for (const [who, boatOf] of kinds) {
  test(`news are there within two seconds where ${who} vouches`, async () => {
    const { server, browser, end } = await boatOf();
    try {
      const aboard = async (name: string, role: string): Promise<Page> => {
        const page = await phone(browser, { baseURL: server.url });
        await comeAboard(page, server, name, server.invite(role));
        return page;
      };
      const ann = await aboard("Ann", "skipper");
      await startTrip(ann);
      await writeNote(ann, "first");
      await expect(ann.locator(".sending")).toContainText("All sent");
      const ben = await aboard("Ben", "mate");
      await ben.goto("/#/notes");
      await calm(ben);
      await expect(row(ben, "first")).toBeVisible();
      await writeNote(ann, "from Ann");
      await within(ben, 2000, () => row(ben, "from Ann").isVisible());
      await writeNote(ben, "from Ben");
      await within(ann, 2000, () => row(ann, "from Ben").isVisible());
    } finally {
      await end();
    }
  });
}
