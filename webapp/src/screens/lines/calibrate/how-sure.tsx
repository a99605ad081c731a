/** On a rod's page: how sure its depth is, before and after this boat's own touches; and to note that it ran clear. */

import { useAnswer } from "../../../base/desk/ask";
import type { RodAnswer } from "../../../base/desk/types/towline.gen";
import { On } from "../../../base/parts/icons";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { gear } from "../../../state/gear/gear";
import { createTouch, offerUndoOf } from "../../../state/notes/create";
import { onceRead } from "../../../state/notes/search/reading";
import { depthOverLure } from "../../../state/rise/watch";
import { doubtNow } from "../../../state/spread/doubt";
import { lessons } from "../../../state/spread/learned";
import { bareRod, seaFor } from "../../../state/spread/request";
import { type Rod, spread } from "../../../state/spread/spread";
import { properties } from "../../../state/spread/water";
import { Bands } from "./bands";
import { afterWords } from "./words";

const t = text.calibrate;

export function HowSure({ rod, answer }: { rod: Rod; answer: RodAnswer }) {
  const { on, used } = lessons.value;
  return (
    <section class="how-sure">
      <h2>{t.howSure}</h2>
      {used > 0 && on ? (
        <BeforeAndAfter rod={rod} after={answer} used={used} />
      ) : (
        <p>{used > 0 ? t.setAside : t.none}</p>
      )}
      <div class="asks">
        <a class="button" href={href("lines", "touches")}>
          {t.title} <On />
        </a>
        <button
          type="button"
          class="button"
          onClick={once(() =>
            onceRead(`clear ${rod.id}`, () => offerUndoOf(createTouch(rod, "clear", depthOverLure(rod.id)))),
          )}
        >
          <span>
            {t.clear}
            <small class="soft">{t.clearWhat}</small>
          </span>
        </button>
      </div>
    </section>
  );
}

function BeforeAndAfter({ rod, after, used }: { rod: Rod; after: RodAnswer; used: number }) {
  const { wanted } = spread.value;
  const { answer } = useAnswer("spread", {
    sea: seaFor(spread.value, properties.value),
    wanted,
    doubt: doubtNow.value,
    rods: [bareRod(gear.value, rod)],
  });
  const before = answer?.rods[0];
  if (!before) return <p>{text.lines.working}</p>;
  if (before.trouble || after.trouble) return null;
  return (
    <Bands
      rows={[
        { name: t.before, band: before.depth },
        { name: afterWords(used), band: after.depth },
      ]}
      bottom={spread.value.bottom}
      legend
    />
  );
}
