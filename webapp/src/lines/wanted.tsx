/** The band off the bottom in which the lures should ride. */
import { Page } from "../parts/page";
import { sayProblem } from "../parts/problem";
import { Stepper } from "../parts/stepper";
import { href } from "../shell/route";
import { fromDesk, text } from "../text/text";
import { amount } from "../units/show";
import { spread } from "./spread";
import { change, complaint, thumb } from "./state";

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
