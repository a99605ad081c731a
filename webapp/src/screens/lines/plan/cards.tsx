/** The plan to be read aloud, a rod at a time in the order of letting out, in words that are read at arm's length. */

import { Gone } from "../../../base/parts/gone";
import { On } from "../../../base/parts/icons";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { amount } from "../../../base/units/show";
import { gear, pick } from "../../../state/gear/gear";
import { placeName } from "../../../state/gear/names";
import { type Rod, spread } from "../../../state/spread/spread";
import { rodName } from "../calibrate/words";
import { weightWords } from "../words";
import { usePlan } from "./page";

const t = text.plan;

export function PlanCardPage({ id }: { id: string }) {
  const { answer, problem } = usePlan();
  const back = href("lines", "plan");
  if (problem) return <Gone back={back} />;
  if (!answer)
    return (
      <Page title={t.aloud} back={back}>
        {text.lines.working}
      </Page>
    );
  const at = Number(id);
  const index = answer.out[at];
  const rod = index === undefined ? undefined : spread.value.rods[index];
  const setting = index === undefined ? undefined : answer.settings[index];
  if (!rod || !setting || index === undefined) return <Gone back={back} />;
  const all = answer.out.length;
  return (
    <Page
      title={`${t.aloud}: ${t.cardOf(at + 1, all)}`}
      back={back}
      deck={
        <div class="side-by-side">
          <Turn to={at - 1} of={all}>
            {t.before}
          </Turn>
          <Turn to={at + 1} of={all}>
            {t.next} <On />
          </Turn>
        </div>
      }
    >
      <Card rod={rod} number={index + 1} drail={setting.drail} lineOut={setting.lineOut} />
      <p class="large-words">{at === 0 ? t.order1 : at === all - 1 ? t.orderLast : t.orderNext}</p>
      {at === all - 1 && <p>{t.in(answer.in.map(rodName))}</p>}
      <p class="notice">{t.cautions[at % t.cautions.length]}</p>
    </Page>
  );
}

function Card({ rod, number, drail, lineOut }: { rod: Rod; number: number; drail: number; lineOut: number }) {
  return (
    <div class="read-out">
      <p>
        <span class="rod-number">{number}</span>
        <span class="rod-place">{placeName(pick(gear.value.places, rod.place))}</span>
      </p>
      <p>{weightWords({ ...rod, drail }) ?? t.noDrail}</p>
      <p>{t.letOut(amount("line", lineOut))}</p>
    </div>
  );
}

/** One card on or back; nothing moves where there is none. */
function Turn({ to, of, children }: { to: number; of: number; children: preact.ComponentChildren }) {
  return (
    <button
      type="button"
      class="button"
      disabled={to < 0 || to >= of}
      onClick={once(() => goInstead("lines", "plan", String(to)))}
    >
      {children}
    </button>
  );
}
