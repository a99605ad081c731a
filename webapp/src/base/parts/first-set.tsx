/** The way back to how things were first set; and, once gone, the way back from there. */
import { once } from "../shell/guard";
import { offerUndo } from "../shell/undo";
import type { Kept } from "../store/kept";
import { text } from "../text/text";

interface Props<T> {
  kept: Kept<T>;
  first: T;
  /** Whether it is as first set now. */
  is: boolean;
}

export function FirstSet<T>({ kept, first, is }: Props<T>) {
  const t = text.parts.first;
  const back = () => {
    const before = kept.value;
    kept.set(first);
    offerUndo(t.done, () => kept.set(before));
  };
  // One height for both, so that nothing moves under the finger that makes the first change.
  return (
    <div class="first-set">
      {is ? (
        <p class="soft">{t.is}</p>
      ) : (
        <button type="button" class="button" onClick={once(back)}>
          {t.back}
        </button>
      )}
    </div>
  );
}
