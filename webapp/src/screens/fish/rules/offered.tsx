/** Sets that somebody of the crew has given: each is taken with a tap, and never by itself. */
import { On } from "../../../base/parts/icons";
import { once } from "../../../base/shell/guard";
import { offerUndo } from "../../../base/shell/undo";
import { fromDesk, text } from "../../../base/text/text";
import { writerWords } from "../../../state/notes/words";
import { rules } from "../../../state/rules/rules";
import { type Offered, offered, takeSet } from "../../../state/rules/share";

const t = text.fish.share;

export function OfferedSets() {
  if (offered.value.length === 0) return null;
  const take = ({ set }: Offered) => {
    const before = rules.value;
    takeSet(set);
    offerUndo(t.taken(fromDesk(set.name)), () => rules.set(before));
  };
  return (
    <>
      <h2>{t.offered}</h2>
      <ul class="links">
        {offered.value.map(({ set, record }) => {
          const by = record.entries.at(-1);
          return (
            <li key={record.id}>
              <button type="button" class="button" onClick={once(() => take({ set, record }))}>
                <span>
                  {t.take(fromDesk(set.name))}
                  <small class="soft">
                    {[by && writerWords(by), set.asOf, text.fish.rules.rules(set.rules.length)]
                      .filter(Boolean)
                      .join(", ")}
                  </small>
                </span>
                <On />
              </button>
            </li>
          );
        })}
      </ul>
    </>
  );
}
