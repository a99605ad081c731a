/** This phone asks to come aboard: its word, as large as it can be held up, until somebody has said yes. */

import { Typed } from "../../../base/parts/literal";
import { Act } from "../../../base/parts/notice";
import { text } from "../../../base/text/text";
import { clock } from "../../../base/units/when";
import { ask, giveUp, unheard } from "../../../state/enrol/ask";
import type { Asking } from "../../../state/log/disk/db";
import { AskingState, useAsking } from "./asking";

const t = text.enrol.asks;

export function AsksItself({ mine }: { mine: Asking }) {
  const asking = useAsking<void>();
  if (mine.over)
    return (
      <>
        <p class="notice" role="status">
          {t[mine.over]}
        </p>
        {mine.over === "lapsed" && <Act onTap={() => asking.ask(() => ask(mine.name))}>{t.again}</Act>}
        <AskingState of={asking} />
        <Act onTap={giveUp}>{t.otherwise}</Act>
      </>
    );
  return (
    <>
      <p>{t.word}</p>
      <p class="huge code" role="status">
        {mine.word}
      </p>
      <p class="large-words">{t.say}</p>
      <p>{t.until(clock(mine.ends))}</p>
      <p class="soft">{text.enrol.left(2)}</p>
      {!mine.answerable && (
        <p class="notice">
          <span>
            <Typed>{t.nobody(mine.word)}</Typed>
          </span>
        </p>
      )}
      <AskingState of={{ working: asking.working, trouble: unheard }} />
      <Act onTap={giveUp}>{t.giveUp}</Act>
    </>
  );
}
