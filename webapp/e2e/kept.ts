/** What a test asks of a page over and over. Handed over with each question the browser would read and compile it each time. */
import type { Page } from "@playwright/test";

type Keeping = { kept?: { [name: string]: (given: unknown) => unknown } };

/** What a function says that runs in the page, which keeps it by its name until it is loaded anew. */
export async function ask<Given, Said>(
  page: Page,
  name: string,
  look: (given: Given) => Said,
  given: Given,
): Promise<Said> {
  const asked = { name, given };
  const said = () =>
    page.evaluate(
      ({ name, given }) => {
        const look = (window as unknown as Keeping).kept?.[name];
        return look && { said: look(given) as unknown };
      },
      asked as { name: string; given: unknown },
    );
  let answer = await said();
  if (!answer) {
    await page.evaluate(`(window.kept ??= {})[${JSON.stringify(name)}] = ${look}`);
    answer = await said();
  }
  return answer?.said as Said;
}
