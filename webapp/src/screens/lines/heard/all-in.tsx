/** All lines are in: no lure is warned of, and the notes of the trip that runs tell it, until they go out again. */
import type { Told } from "../../../base/parts/around";
import { Act, Notice } from "../../../base/parts/notice";
import { offerUndo } from "../../../base/shell/undo";
import { text } from "../../../base/text/text";
import { mayChange } from "../../../state/crew/role";
import { running } from "../../../state/log/log";
import { strike } from "../../../state/log/saying/say";
import { createLines } from "../../../state/notes/create";
import { logRead } from "../../../state/notes/search/reading";
import { change } from "../../../state/spread/solved";
import { spread } from "../../../state/spread/spread";

const t = text.lines;

/** In and out again before the notes are read is told as both, in their order. */
async function say(allIn: boolean, said: string): Promise<void> {
  change({ allIn });
  const at = Date.now();
  await logRead();
  const record = running.value && mayChange() ? createLines(allIn, at) : undefined;
  offerUndo(said, () => {
    change({ allIn: !allIn });
    if (record) strike(record);
  });
}

export const takeAllIn = (): Promise<void> => say(true, t.allInNow);

export function allInTold(): Told | undefined {
  if (!spread.value.allIn) return undefined;
  const whole = (
    <Notice key="all in" actions={<Act onTap={() => say(false, t.outNow)}>{t.outAgain}</Act>}>
      {t.allInNow}
    </Notice>
  );
  return { short: t.allIn, whole };
}
