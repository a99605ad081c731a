/** The band of speeds through the water that is wanted. */
import { useSignal } from "@preact/signals";
import { limits } from "../../base/desk/types/current.gen";
import { LimitedStepper } from "../../base/parts/input/limited";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { offerUndo } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { amount } from "../../base/units/show";
import { wanted } from "../../state/pace/pace";
import { paceSettings, set } from "../../state/pace/settings";

const t = text.pace.wantedSpeed;

export function WantedSpeedPage() {
  const crossed = useSignal(false);
  const now = wanted.value;
  const take = (low: number, high: number) => {
    crossed.value = low > high;
    if (!crossed.value) set({ wanted: { low, high } });
  };
  return (
    <Page title={t.title} back={href("pace")}>
      <p>{t.what}</p>
      {now && (
        <>
          <LimitedStepper
            label={t.high}
            quantity="speed"
            si={now.high}
            limits={limits.Throttle.high}
            onChange={(high) => take(now.low, high)}
          />
          <LimitedStepper
            label={t.low}
            quantity="speed"
            si={now.low}
            limits={limits.Throttle.low}
            onChange={(low) => take(low, now.high)}
          />
          {crossed.value && <p role="alert">{t.order}</p>}
          <p class="soft">
            {text.pace.wantedNow(amount("speed", now.low), amount("speed", now.high), now.from)}
          </p>
        </>
      )}
      {paceSettings.value.wanted && (
        <button type="button" class="button" onClick={once(back)}>
          {t.back}
        </button>
      )}
    </Page>
  );
}

function back(): void {
  const { wanted: before } = paceSettings.value;
  set({ wanted: null });
  offerUndo(t.backDone, () => set({ wanted: before }));
}
