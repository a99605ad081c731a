/** The sounder's depth of now, quickly stepped; and when the lures come to where it was read. */
import type { Coming } from "../../../base/desk/types/rise.gen";
import { limits } from "../../../base/desk/types/rise.gen";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { liveWords } from "../../../base/parts/live/live";
import { Page } from "../../../base/parts/page";
import { useSeconds } from "../../../base/parts/seconds";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import { text } from "../../../base/text/text";
import { about, age, amount } from "../../../base/units/show";
import { depthHeard } from "../../../state/instruments/heard";
import { forgotten, type Read, readNow, sound } from "../../../state/rise/soundings";
import { looked, overGround } from "../../../state/rise/watch";
import { soundedNow } from "../../../state/spread/request";
import { changeUndoably } from "../../../state/spread/solved";
import { spread } from "../../../state/spread/spread";
import { rodName } from "../calibrate/words";
import { seconds } from "./notice";

const t = text.rise;
/** More are not read anyway. */
const listed = 6;

export function RisePage() {
  useSeconds();
  const now = Date.now();
  const read = readNow(now);
  const { bottom } = spread.value;
  const depth = read[0]?.depth ?? bottom;
  const ground = overGround();
  return (
    <Page
      title={t.title}
      back={href("lines")}
      deck={
        <>
          <LimitedStepper
            label={t.now}
            quantity="depth"
            si={depth}
            limits={limits.Sounding.depth}
            onChange={sound}
            note={
              depthHeard.value
                ? liveWords(depthHeard.value.age)
                : read[0]
                  ? t.ago(age(now - read[0].at))
                  : undefined
            }
          />
          <button type="button" class="button still" onClick={once(() => sound(depth))}>
            {t.still(amount("depth", depth))}
          </button>
        </>
      }
    >
      {read.length > 0 ? <Rods now={now} /> : <p>{t.what}</p>}
      {!soundedNow.value && Math.abs(depth - bottom) > 0.05 && (
        <button
          type="button"
          class="button"
          onClick={once(() => changeUndoably(t.bottomSet(amount("depth", depth)), { bottom: depth }))}
        >
          {t.setBottom(amount("depth", depth), amount("depth", bottom))}
        </button>
      )}
      {read.length > 0 && <History read={read} now={now} />}
      <p class="soft">
        {ground.known
          ? t.byPace(about("speed", ground.speed, 0.1))
          : t.byLines(about("speed", ground.speed, 0.1))}{" "}
        {t.how}
      </p>
    </Page>
  );
}

/** When each lure is where the boat is now, and what it finds on the way. */
function Rods({ now }: { now: number }) {
  const last = looked.value;
  if (!last) return <p>{text.lines.working}</p>;
  return (
    <ul class="prose">
      {last.answer.rods.map((coming, i) => (
        <li key={last.spread.rods[i]?.id}>
          {rodName(i)}: {comingWords(coming, (now - last.at) / 1000)}
        </li>
      ))}
    </ul>
  );
}

function comingWords({ trouble, verdict, lag }: Coming, gone: number): string {
  if (trouble) return text.lines.noAnswer;
  return t.coming(seconds(lag - gone), t.verdicts[verdict]);
}

function History({ read, now }: { read: Read[]; now: number }) {
  const forget = () => {
    const before = forgotten.value;
    forgotten.set(Date.now());
    offerUndo(t.forgotten, () => forgotten.set(before));
  };
  return (
    <>
      <h2>{t.history}</h2>
      <p>
        {read
          .slice(0, listed)
          .map(({ depth, at }) => t.read(amount("depth", depth), age(now - at)))
          .join(" · ")}
      </p>
      <button type="button" class="button" onClick={once(forget)}>
        {t.forget}
      </button>
    </>
  );
}
