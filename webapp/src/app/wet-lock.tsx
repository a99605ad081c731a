/** The lock against wet touches: on by one tap, off by two taps in turn at either edge, which gloves can do. */
import { WetLock as LockIcon } from "../base/parts/icons";
import { once } from "../base/shell/guard";
import { halfOpen, lock, locked, tapFirst, tapSecond } from "../base/shell/wet-lock";
import { text } from "../base/text/text";
import { Alarms } from "./notices";

const t = text.wetLock;

export function WetLockButton() {
  return (
    <button type="button" class="corner wet-lock-button" aria-label={t.name} onClick={once(lock)}>
      <LockIcon />
      <span aria-hidden="true">{t.short}</span>
    </button>
  );
}

/** In the place of what is done at the thumb. */
export function WetLockBar() {
  if (!locked.value) return null;
  return (
    <section class="wet-lock" aria-label={t.name}>
      <div class="notices">
        <Alarms />
      </div>
      <button type="button" aria-label={t.firstName} aria-pressed={halfOpen.value} onClick={tapFirst}>
        {t.first}
      </button>
      <p role="status">
        <LockIcon /> {t.on} <b>{t.how}</b>
      </p>
      <button type="button" aria-label={t.secondName} onClick={tapSecond}>
        {t.second}
      </button>
    </section>
  );
}
