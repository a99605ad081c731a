/** All lines are in: nothing is warned of, and the notes of the trip that runs tell it, until they go out again. */
import type { Told } from "../../../base/parts/around";
import { Act, Notice } from "../../../base/parts/notice";
import { offerUndo } from "../../../base/shell/undo";
import { text } from "../../../base/text/text";
import { mayChange } from "../../../state/crew/role";
import { running } from "../../../state/log/log";
import { strike } from "../../../state/log/saying/say";
import { createLines } from "../../../state/notes/create";
import { onceRead } from "../../../state/notes/search/reading";
import { change } from "../../../state/spread/solved";
import { spread } from "../../../state/spread/spread";

const t = text.lines;

function say(allIn: boolean, said: string): void {
  change({ allIn });
  onceRead("lines", () => {
    const record = running.value && mayChange() ? createLines() : undefined;
    offerUndo(said, () => {
      change({ allIn: !allIn });
      if (record) strike(record);
    });
  });
}

export const takeAllIn = (): void => say(true, t.allInNow);

export function allInTold(): Told | undefined {
  if (!spread.value.allIn) return undefined;
  const whole = (
    <Notice key="all in" actions={<Act onTap={() => say(false, t.outNow)}>{t.outAgain}</Act>}>
      {t.allInNow}
    </Notice>
  );
  return { short: t.allIn, whole };
}
