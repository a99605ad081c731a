/** On a rod's page: how sure its depth is, before and after this boat's own touches; and to note that it ran clear. */
import type { RodAnswer } from "../desk/towline.gen";
import { gear } from "../gear/gear";
import { useAnswer } from "../lines/ask";
import { doubtNow } from "../lines/doubt";
import { bareRod, seaFor } from "../lines/request";
import { type Rod, spread } from "../lines/spread";
import { properties } from "../lines/water";
import { offerBack, sayTouch } from "../notes/say";
import { On } from "../parts/icons";
import { once } from "../shell/guard";
import { href } from "../shell/route";
import { text } from "../text/text";
import { Bands } from "./bands";
import { lessons } from "./learned";

const t = text.learn;

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
        <button type="button" class="button" onClick={once(() => offerBack(sayTouch(rod, "clear")))}>
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
        { name: t.after(used), band: after.depth },
      ]}
      bottom={spread.value.bottom}
      legend
    />
  );
}
