/** How well each number behind a depth is known: what makes the ±, to be set by the person. */
import { limits } from "../../base/desk/types/towline.gen";
import { FirstSet } from "../../base/parts/first-set";
import { On } from "../../base/parts/icons";
import { LimitedStepper } from "../../base/parts/input/limited";
import { Page } from "../../base/parts/page";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { units } from "../../base/units/settings";
import { amount } from "../../base/units/show";
import { onGrid, type Quantity, scaleOf, stepped } from "../../base/units/units";
import { type Doubts, doubt, doubtNames, firstDoubt, isFirst } from "../../state/spread/doubt";

/** How each is told, and where the usual step of that would be too coarse, a finer one. */
const told: { [K in keyof Doubts]: { quantity: Quantity; step?: number } } = {
  speed: { quantity: "speed", step: 0.05 },
  lineOut: { quantity: "share" },
  tipHeight: { quantity: "size" },
  lineDrag: { quantity: "share", step: 5 },
  friction: { quantity: "share", step: 5 },
  lureWeight: { quantity: "share" },
  lureDrag: { quantity: "share", step: 5 },
  lureLift: { quantity: "area", step: 0.5 },
  sinkers: { quantity: "share" },
};

export function DoubtPage() {
  const { value } = doubt.signal;
  const t = text.lines.doubt;
  return (
    <Page title={t.title} back={href("locker")}>
      {t.what.map((paragraph) => (
        <p key={paragraph}>{paragraph}</p>
      ))}
      <a class="button" href={href("lines", "touches")}>
        {text.calibrate.title} <On />
      </a>
      <FirstSet kept={doubt} first={firstDoubt} is={doubtNames.every((name) => isFirst(name, value[name]))} />
      <div class="form">
        {doubtNames.map((name) => (
          <OneDoubt key={name} name={name} si={value[name]} />
        ))}
      </div>
    </Page>
  );
}

function OneDoubt({ name, si }: { name: keyof Doubts; si: number }) {
  const t = text.lines.doubt;
  const { quantity, step } = told[name];
  const own = scaleOf(quantity, units());
  const scale = { ...own, step: step ?? own.step };
  // What nobody has set is round in SI alone.
  const first = onGrid(firstDoubt[name], scale);
  return (
    <div class="form-number">
      <LimitedStepper
        label={t.names[name]}
        quantity={quantity}
        si={isFirst(name, si) ? first : si}
        limits={limits.Doubt[name]}
        onChange={(changed) => doubt.set({ ...doubt.value, [name]: changed })}
        step={(from, by) => stepped(from, by, scale)}
        before={"±\u202f"}
        note={isFirst(name, si) ? undefined : t.first(amount(quantity, first))}
      />
      <p class="soft">{t.hints[name]}</p>
    </div>
  );
}
