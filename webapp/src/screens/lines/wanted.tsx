/** The band off the bottom in which the lures should ride. */

import { limits } from "../../base/desk/types/towline.gen";
import { Choices } from "../../base/parts/input/choices";
import { LimitedStepper } from "../../base/parts/input/limited";
import { sayProblem } from "../../base/parts/input/problem";
import { Stepper } from "../../base/parts/input/stepper";
import { Page } from "../../base/parts/page";
import { href } from "../../base/shell/route";
import { fromDesk, text } from "../../base/text/text";
import { amount } from "../../base/units/show";
import { change, complaint, thumb } from "../../state/spread/solved";
import { cautions, spread } from "../../state/spread/spread";

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
      <Choices
        label={t.caution}
        choices={cautions.map((value) => ({ value, name: t.cautions[value] }))}
        value={spread.value.caution}
        onChoose={(caution) => change({ caution })}
      />
      <p class="soft">{t.cautionWhat}</p>
      <LimitedStepper
        label={t.sounding}
        quantity="depth"
        si={spread.value.bottomDoubt}
        limits={limits.Spread.bottomDoubt}
        onChange={(bottomDoubt) => change({ bottomDoubt })}
        before={"±\u202f"}
      />
      <LimitedStepper
        label={t.tide}
        quantity="depth"
        si={spread.value.tideDoubt}
        limits={limits.Spread.tideDoubt}
        onChange={(tideDoubt) => change({ tideDoubt })}
        before={"±\u202f"}
      />
      {thumb.value && (
        <p class="soft">{t.rule(amount("depth", thumb.value.offBottom), fromDesk(thumb.value.label))}</p>
      )}
    </Page>
  );
}
