/**
 * Somebody overboard, from every screen: the first touch holds place and time, the second, elsewhere on the screen, says
 * that it was meant. While a case is open, it stands over everything on every phone that has it.
 */
import { computed, signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Overboard } from "../base/parts/icons";
import { since } from "../base/position/moment";
import { once, screenChanged } from "../base/shell/guard";
import { go } from "../base/shell/route";
import { locked } from "../base/shell/wet-lock";
import { text } from "../base/text/text";
import { age } from "../base/units/show";
import { clock, place } from "../base/units/when";
import { type Moment, momentNow } from "../state/overboard/moment";
import { after, whenHere } from "./come";

const t = text.cry;

/** What the first touch held; undefined: nobody has touched, or thought better of it. */
const held = signal<Moment | undefined>(undefined);

/** It was meant, and what takes the case on has not come yet. */
const meant = signal(false);

/** Nothing is asked any more. */
const leave = () => {
  held.value = undefined;
  meant.value = false;
};

/** While it is asked nothing else of the head answers: the lock would leave the question open to every drop. */
export const asking = computed(() => held.value !== undefined);

/** A touch that nobody follows up was none, after so many ms: whoever meant it may throw a ring and turn the boat first. */
const forgotten = 60_000;

export function OverboardButton() {
  const touch = () => {
    held.value ??= momentNow();
    // Nor may the answer be, right after the lock was opened.
    screenChanged(0);
  };
  return (
    // The guard against echoes is not for this: no touch of it may be lost.
    <button type="button" class="overboard-button" aria-expanded={held.value !== undefined} onClick={touch}>
      <Overboard />
      <span>{t.control}</span>
    </button>
  );
}

/** Asks, over everything, far from the button that brought it. */
function Asking({ moment }: { moment: Moment }) {
  useEffect(() => {
    if (meant.value) return;
    // It may have been meant since, a moment before this is put off.
    const timer = setTimeout(() => meant.value || leave(), forgotten);
    return () => clearTimeout(timer);
  }, [meant.value]);
  const { fix, at } = moment.fix ?? {};
  const yes = () => {
    // Now touches are meant.
    locked.value = false;
    meant.value = true;
    // Where that does not come, time and place stay on the screen.
    whenHere(({ cryOut }) => {
      // Meant twice it is one, and none once it was taken back.
      if (held.value !== moment) return;
      leave();
      cryOut(moment);
    });
  };
  const other = () => {
    leave();
    go("help");
  };
  return (
    <div class="overboard-ask" role="alertdialog" aria-modal="true" aria-labelledby="overboard-ask">
      <h2 id="overboard-ask">{t.arm.ask}</h2>
      <p>{t.arm.noted(clock(moment.when), fix ? place(fix.lat, fix.lon) : "", at ? age(since(at)) : "")}</p>
      <button type="button" class="button overboard-yes" onClick={once(yes)}>
        <Overboard /> {t.arm.yes}
      </button>
      <div class="button-row">
        <button type="button" class="button overboard-others" onClick={once(other)}>
          {t.arm.other}
        </button>
        <button type="button" class="button overboard-others" onClick={once(leave)}>
          {t.arm.no}
        </button>
      </div>
    </div>
  );
}

export function OverboardBar() {
  if (held.value) return <Asking moment={held.value} />;
  const Alarm = after.value?.OverboardAlarm;
  return Alarm ? <Alarm /> : null;
}
