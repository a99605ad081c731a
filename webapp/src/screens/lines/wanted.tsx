/** The band off the bottom in which the lures should ride. */

import { sayProblem } from "../../base/parts/input/problem";
import { Stepper } from "../../base/parts/input/stepper";
import { Page } from "../../base/parts/page";
import { href } from "../../base/shell/route";
import { fromDesk, text } from "../../base/text/text";
import { amount } from "../../base/units/show";
import { change, complaint, thumb } from "../../state/spread/solved";
import { spread } from "../../state/spread/spread";

export function WantedPage() {
  const { wanted } = spread.value;
  const t = text.lines.wanted;
  const problem = complaint.value;
  const edge = (which: "low" | "high") => (
    <Stepper
      label={t[which]}
      quantity="depth"
      si={wanted[which]}
      onChange={(si) => change({ wanted: { ...wanted, [which]: si } })}
      problem={problem?.field === `wanted.${which}` ? sayProblem(problem, "depth") : undefined}
    />
  );
  return (
    <Page title={t.title} back={href("lines")}>
      <p>{t.what}</p>
      {edge("high")}
      {edge("low")}
      {thumb.value && (
        <p class="soft">{t.rule(amount("depth", thumb.value.offBottom), fromDesk(thumb.value.label))}</p>
      )}
    </Page>
  );
}
