/** How many of each drail are aboard. */

import { limits } from "../../../base/desk/types/plan.gen";
import { On } from "../../../base/parts/icons";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { Page } from "../../../base/parts/page";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { withItem } from "../../../state/gear/change";
import { gear } from "../../../state/gear/gear";
import { drailName } from "../../../state/gear/names";

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
