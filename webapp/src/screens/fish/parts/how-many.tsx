/** How many people fish: the bag of each counts once for every one of them. */
import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import { once } from "../../../base/shell/guard";
import { text } from "../../../base/text/text";
import { numeral } from "../../../base/units/show";
import { setHeads } from "../../../state/crew/aboard";
import { fishing } from "../../../state/fish/people";

const t = text.fish.howMany;

const usual = [1, 2, 3, 4, 5, 6, 7, 8];

/** What was said, with the way to say otherwise. */
export function HowManyNow() {
  const asking = useSignal(false);
  const now = fishing();
  if (asking.value) return <HowMany onSaid={() => (asking.value = false)} />;
  return now > 0 ? (
    <button type="button" class="button" onClick={once(() => (asking.value = true))}>
      {t.now(now)}
    </button>
  ) : null;
}

export function HowMany({ onSaid }: { onSaid?: () => void }) {
  const id = useId();
  const now = fishing();
  return (
    <section class="form" aria-labelledby={id}>
      <h2 id={id}>{t.title}</h2>
      <div class="choice-row">
        {usual.map((count) => (
          <button
            key={count}
            type="button"
            class="button how-many"
            aria-pressed={count === now}
            onClick={once(() => {
              setHeads({ fishing: count });
              onSaid?.();
            })}
          >
            {numeral(count)}
          </button>
        ))}
      </div>
      <p class="soft">{t.why}</p>
    </section>
  );
}
