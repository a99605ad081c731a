/** A fish from strike to bag, and the rules it goes by, on three phones. */
import { answered, dial, rod, settled, type } from "../app";
import { chooseWaters, lookUp, measured } from "../fish";
import { calm, exchangeNow, mark, row } from "../notes";
import { within } from "../phone";
import { cutOff, expect, notes, type Page, tap, test, together, visit } from "./phones";

/** Marks a hookup, and says on which rod. */
async function hooked(page: Page, place: number): Promise<void> {
  await notes(page);
  await mark(page);
  await page.getByRole("radio", { name: new RegExp(`^${place} `) }).check();
  await tap(page, "Done");
}

const onRod = (page: Page, place: number) =>
  row(page, "Hookup").filter({ hasText: new RegExp(`\\b${place} (port|starboard)`) });
const verdict = (page: Page) => page.locator(".fish-verdict");
const which = (page: Page) => page.getByRole("group", { name: "Several are hooked. Which one is this?" });

test("whoever marked a hookup and whoever lands it, a fish goes with the rod that struck, and once into the bag", async ({
  three: { ann, ben, gus },
  boat,
}) => {
  await test.step("of two hookups a fish goes with the rod that struck, whoever marked it and whoever lands it", async () => {
    await hooked(ben, 1);
    await hooked(gus, 2);
    await notes(ann);
    for (const place of [1, 2]) await within(ann, 2000, () => onRod(ann, place).isVisible());
    await cutOff([ann, ben, gus]);
    await boat.server.pause();

    // The skipper lands the guest's; the mate his own, which is the only one his phone has left to ask about then.
    await visit(ann, "fish");
    await tap(ann, "Fish up");
    await expect(which(ann).getByRole("radio")).toHaveCount(2);
    await expect(which(ann)).toContainText(/1 port.*, Ben.*2 starboard.*, Gus/s);
    await which(ann).getByRole("radio", { name: /^2 / }).check();
    await tap(ann, "It got off");
    await visit(ben, "fish");
    await tap(ben, "Fish up");
    await which(ben).getByRole("radio", { name: /^1 / }).check();
    await tap(ben, "Next");
    await calm(ben);
    await type(ben.getByRole("group", { name: "Total length" }), "29");
    await tap(ben, "Next");
    await chooseWaters(ben);
    await visit(ben, "fish");
    await ben.getByRole("link", { name: /Go on/ }).click();
    await tap(ben, "Let it go");

    await boat.server.restart();
    await together([ann, ben, gus]);
    for (const page of [ann, ben, gus]) {
      await expect(row(page, "Hookup")).toHaveCount(2);
      await expect(onRod(page, 1)).toContainText(/29.in, Let go/);
      await expect(onRod(page, 2)).toContainText("Got off");
    }
  });
  await test.step("whoever lands a hookup that another phone has landed meanwhile is asked whether it is the same fish", async () => {
    await hooked(ben, 3);
    await notes(ann);
    await within(ann, 2000, () => onRod(ann, 3).isVisible());
    for (const page of [ann, ben]) {
      await visit(page, "fish");
      await tap(page, "Fish up");
    }
    const landed = async (page: Page, length: string) => {
      await tap(page, "Next");
      await calm(page);
      await type(page.getByRole("group", { name: "Total length" }), length);
    };
    await landed(ann, "33");
    await tap(ann, "Next");
    await tap(ann, "Let it go");
    const asked = ben.getByText("has landed one");
    await within(ben, 3000, () => asked.isVisible());
    await expect(asked).toContainText(/^Ann.*33.in/);
    await tap(ben, "No, another");
    await expect(asked).toHaveCount(0);
    await landed(ben, "31");
    await tap(ben, "Next");
    await tap(ben, "Let it go");
    await notes(ann);
    await within(ann, 3000, async () => (await row(ann, "Hookup").count()) === 4);
    for (const length of [/33.in/, /31.in/])
      await expect(row(ann, "Hookup").filter({ hasText: length })).toHaveCount(1);
  });
  await test.step("how many fish is asked once for the boat, and one's fish are in everybody's bag", async () => {
    await cutOff([ann, ben, gus]);
    await boat.server.pause();
    for (const page of [ann, ben, gus]) {
      await chooseWaters(page);
      await tap(page, "I looked: it still holds");
    }
    await measured(ann, "29");
    await tap(ann, "Keep it");
    await expect(ann.getByRole("heading", { name: "How many people fish today?" })).toBeVisible();
    await calm(ann);
    await ann.getByRole("button", { name: "2", exact: true }).click();
    await measured(ben, "30");
    await tap(ben, "Keep it");
    await boat.server.restart();
    await together([ann, ben, gus]);
    // The guest's phone has not been told how many fish, nor kept one itself.
    for (const page of [gus, ben, ann]) {
      await exchangeNow(page);
      await visit(page, "fish");
      await expect(page.getByText("2 people fish today")).toBeVisible();
      await expect(page.locator(".fish-stop")).toContainText("bag is full");
    }
    await measured(gus, "29");
    await expect(verdict(gus)).toContainText("bag is full");
  });
});

test("a guest's own fish is in every phone's bag, and is judged by the rules that the crew was given", async ({
  three: { ann, ben, gus },
  boat,
}) => {
  await test.step("a guest's own fish is a hookup of its own in every phone's bag, also right after the mate marked one", async () => {
    await lookUp(ann);
    await lookUp(gus);
    await hooked(ben, 1);
    await notes(gus);
    await within(gus, 2000, () => onRod(gus, 1).isVisible());
    await cutOff([gus]);
    await measured(gus, "29");
    await calm(gus);
    await gus.getByRole("button", { name: /^Gus \(Me\)/ }).click();
    await together([gus]);
    for (const page of [ann, ben]) {
      await exchangeNow(page);
      await expect(row(page, "Hookup")).toHaveCount(2);
      await expect(row(page, "Hookup").filter({ hasText: /29.in, Kept/ })).toContainText("Gus");
      await expect(page.getByText("A change is proposed")).toHaveCount(0);
    }
    await visit(ann, "fish");
    await expect(ann.locator(".fish-bag dt", { hasText: "Gus" }).locator("+ dd")).toContainText("1 kept");
  });
  await test.step("rules are given to the crew, taken by a tap, and loudly old on every phone once they are", async () => {
    await visit(ann, "fish/rules");
    await ann.getByRole("combobox", { name: "A set for a state, to fill in" }).selectOption("Rhode Island");
    await calm(ann);
    await ann.locator(".links a").first().click();
    await calm(ann);
    await type(ann.getByRole("group", { name: "Shortest" }), "28");
    await type(ann.getByRole("group", { name: "Fish a day, each" }), "1");
    await tap(ann, "I checked it today");
    await ann.goBack();
    // The boat's server is off while it is given.
    await cutOff([ann, ben, gus]);
    await boat.server.pause();
    await tap(ann, "Give it to the crew");
    await expect(ann.getByRole("button", { name: "The crew has it" })).toBeDisabled();
    await visit(gus, "fish/rules");
    await expect(gus.getByRole("button", { name: /^Take: Rhode Island/ })).toHaveCount(0);
    await boat.server.restart();
    await together([ann, ben, gus]);

    const take = async (page: Page) => {
      await visit(page, "fish/rules");
      const offer = page.getByRole("button", { name: /^Take: Rhode Island/ });
      await expect(offer).toContainText("Ann");
      // Until then it decides nothing.
      await expect(page.getByRole("radio", { name: "Rhode Island, state waters" })).toHaveCount(0);
      await offer.click();
      await expect(page.getByText("Taken, and used now: Rhode Island, striped bass.")).toBeVisible();
      await page.getByRole("radio", { name: "Rhode Island, state waters" }).check();
    };
    for (const page of [ben, gus]) await take(page);
    // A guest gives none.
    await gus.locator(".links a", { hasText: "Rhode Island" }).click();
    await expect(gus.getByRole("button", { name: "Save this set to a file" })).toBeVisible();
    await expect(gus.getByRole("button", { name: /crew/ })).toHaveCount(0);

    await cutOff([ben, gus]);
    await measured(gus, "27.5");
    await expect(verdict(gus)).toContainText(/Too short by 0\.5.in: from 28.in/);
    // A year on nobody has looked it up: whoever has it is told so, and by it nothing is kept.
    const year = 366 * 86_400_000;
    for (const page of [ben, gus]) {
      await page.clock.setSystemTime(Date.now() + year);
      await visit(page, "fish");
      await visit(page, "fish/rules");
      await expect(page.locator(".aged")).toContainText(/Checked 20\d\d-\d\d-\d\d: look it up today/);
      await measured(page, "29");
      await expect(verdict(page)).toContainText("look it up today");
      await expect(verdict(page)).toContainText("That old rule said: may be kept.");
      await expect(page.getByRole("button", { name: "Keep it" })).toHaveCount(0);
    }
  });
});

test("while one lands, the helm hears how slow it may go for the lines that stay out, also of a strike another phone marked", async ({
  three: { ann, ben },
  boat,
}) => {
  // Nobody has set anything on the mate's phone: it does not say what it cannot know.
  await hooked(ben, 1);
  await visit(ben, "fish");
  await tap(ben, "Fish up");
  await expect(ben.locator("main").getByText(/^Helm: /)).toContainText(
    "Nobody has set depth and lines on this phone",
  );
  // In so much water that the lines come down only where the boat slows.
  await ann.goto("/#/lines");
  await answered(ann);
  await calm(ann);
  await type(await dial(ann, "Bottom"), "70");
  await settled(ann);
  await notes(ann);
  await within(ann, 2000, () => onRod(ann, 1).isVisible());
  await cutOff([ann, ben]);
  await boat.server.pause();
  await visit(ann, "fish");
  await tap(ann, "Fish up");
  const helm = ann.locator("main").getByText(/^Helm: straight on, not slower than/);
  await expect(helm).toBeVisible();
  const [, speed = "", first, order = ""] =
    /not slower than ([\d.]+).kn through the water, or (.*) lies on the bottom\. .*first: (.*)\./.exec(
      await helm.innerText(),
    ) ?? [];
  // The rod that struck comes in with its fish: the others count, and it is not among them.
  expect(order.split(", ")[0]).toBe(first);
  expect(order).not.toMatch(/\b1 /);
  expect(order).toMatch(/\b2 /);
  // Nor is one that another fish is on by now.
  await hooked(ann, 2);
  await visit(ann, "fish");
  await ann.getByRole("link", { name: /Go on/ }).click();
  await expect(helm).not.toContainText(/\b2 port|\b2 starboard/);
  await boat.server.restart();
  await ann.context().setOffline(false);

  // So the place of the lines has it, too: at that speed nothing that stays out touches, at half of it that rod does.
  const number = Number(/\d/.exec(first ?? "")?.[0]);
  await ann.goto("/#/lines");
  await answered(ann);
  await calm(ann);
  const at = async (kn: number) => {
    await type(await dial(ann, "Speed"), String(kn));
    await settled(ann);
    return rod(ann, number).innerText();
  };
  expect(await at(Number(speed))).not.toMatch(/bottom/i);
  expect(await at(Number(speed) / 2)).toMatch(/bottom/i);
});
