/** How many of each drail are aboard. */

import { limits } from "../desk/plan.gen";
import { withItem } from "../gear/change";
import { gear } from "../gear/gear";
import { drailName } from "../gear/names";
import { On } from "../parts/icons";
import { LimitedStepper } from "../parts/limited";
import { Page } from "../parts/page";
import { href } from "../shell/route";
import { text } from "../text/text";

export function DrailsPage() {
  const t = text.plan;
  return (
    <Page title={t.drails} back={href("lines", "plan")}>
      <p>{t.drailsWhat}</p>
      <div class="form">
        {gear.value.drails.map((drail) => (
          <LimitedStepper
            key={drail.id}
            label={drailName(drail)}
            quantity="count"
            si={drail.number}
            limits={limits.Stock.number}
            zero={text.plan.noDrails}
            onChange={(number) =>
              gear.set(
                withItem(gear.value, "drails", drail.id, {
                  number: Math.round(number),
                  source: drail.source,
                }),
              )
            }
          />
        ))}
      </div>
      <a class="button" href={href("gear", "drails")}>
        {text.gear.kinds.drails} <On />
      </a>
    </Page>
  );
}
