/** Tapping the beat of the rod tip: the lower half of the screen is for the thumb. */
import { useSignal } from "@preact/signals";
import type { BeatAnswer, Interval } from "../../base/desk/types/beat.gen";
import { Back } from "../../base/parts/icons";
import { Place } from "../../base/parts/place";
import { useSeconds } from "../../base/parts/seconds";
import { calm } from "../../base/shell/calm";
import { once } from "../../base/shell/guard";
import { goBack, href } from "../../base/shell/route";
import { offerUndo } from "../../base/shell/undo";
import { fromDesk, text } from "../../base/text/text";
import { about, amount, banded, bandNumbers, numeral } from "../../base/units/show";
import { gear, pick } from "../../state/gear/gear";
import { spoonName } from "../../state/gear/names";
import { beat, isFresh, judged, noteBeat, tap, taps, waterSpeed } from "../../state/pace/beat";
import { feels, marks } from "../../state/pace/marks";
import { begun, pump, spoonId } from "../../state/pace/spoon";
import { select, selectedId, thumb } from "../../state/spread/solved";
import { spread } from "../../state/spread/spread";

const t = text.pace.beat;
const shown = calm(beat);

export function BeatPage() {
  useSeconds();
  const spoon = spoonId.value ?? "";
  return (
    <Place title={t.title} kind="beat" deckName={t.title} deck={<Deck spoon={spoon} />} quick={false}>
      <Reading of={shown.value} />
      <Rods />
      <Judgement spoon={spoon} />
    </Place>
  );
}

const Deck = ({ spoon }: { spoon: string }) => (
  <>
    <fieldset class="feels">
      <legend class="visually-hidden">{t.judge}</legend>
      {feels.map((feel) => (
        <button
          key={feel}
          type="button"
          class="button"
          disabled={!canMark()}
          onClick={once(() => noteBeat(spoon, feel))}
        >
          <span>
            {text.notes.choices.feel?.[feel]}
            <small>{t.tip[feel]}</small>
          </span>
        </button>
      ))}
    </fieldset>
    <Pad />
  </>
);

/** A mark needs a beat or a speed. */
const canMark = () => isFresh() || waterSpeed() > 0;

/** Where one taps: with a finger as it comes down, by keyboard with Enter or the space bar. */
function Pad() {
  const down = useSignal(false);
  const count = taps.value.length;
  return (
    <button
      type="button"
      class={down.value ? "pad down" : "pad"}
      onPointerDown={(event) => {
        down.value = true;
        tap(event.timeStamp);
      }}
      onPointerUp={() => (down.value = false)}
      onPointerLeave={() => (down.value = false)}
      onPointerCancel={() => (down.value = false)}
      onClick={(event) => event.detail === 0 && tap(event.timeStamp)}
      onContextMenu={(event) => event.preventDefault()}
    >
      <span>{t.here}</span>
      {count > 0 ? <b>{numeral(count)}</b> : <small>{t.pause}</small>}
    </button>
  );
}

function Reading({ of }: { of: BeatAnswer | undefined }) {
  const known = of?.why === "" && isFresh();
  const numbers = known ? bandNumbers("beat", of.beat) : undefined;
  return (
    <section class="beat-reading" aria-live="polite">
      <a class="button" href={href("pace")} onClick={goBack}>
        <Back /> {text.parts.back}
      </a>
      <p class="readout huge">
        {numbers ? `${numbers.mid}\u202f±\u202f${numbers.half}` : t.none} <small>{t.minute}</small>
      </p>
      <p>
        {of && of.why !== "" && t.why[of.why]}
        {known && (
          <>
            {of.steadiness !== "not known" && <b>{t.steadiness[of.steadiness]}, </b>}
            {of.more > 0 ? t.more(of.more) : t.enough}
          </>
        )}
      </p>
    </section>
  );
}

/** The rod that is looked at, which is the one in hand: its spoon is judged. */
function Rods() {
  const { rods } = spread.value;
  return (
    <fieldset class="beat-rods">
      <legend class="visually-hidden">{t.rods}</legend>
      {rods.map((rod, i) => (
        <button
          key={rod.id}
          type="button"
          class="button"
          aria-pressed={selectedId.value === rod.id}
          aria-label={text.lines.oneRod(i + 1)}
          onClick={once(() => select(rod.id), 0)}
        >
          {numeral(i + 1)}
        </button>
      ))}
    </fieldset>
  );
}

/** What this spoon's marks say: of now, of what was right, and what is still to be marked. */
function Judgement({ spoon }: { spoon: string }) {
  const learned = pump.value?.spoon === spoon ? pump.value.answer : undefined;
  if (!spoon || !learned) return null;
  const told = judged.value?.learned ?? begun(judged.value);
  const [slow = 0, right = 0, fast = 0] = (isFresh() && told?.chances) || [];
  const chances = [slow, right, fast];
  const most = Math.max(...chances);
  const likeliest = feels[chances.indexOf(most)];
  const rule = thumb.value;
  const first = begun(learned);
  return (
    <section class="beat-judged">
      <h2>{t.spoon(spoonName(pick(gear.value.spoons, spoon)))}</h2>
      {most > 0 && likeliest && (
        <p class="large-words">{t.nowIs(likeliest, amount("share", roundShare(most)))}</p>
      )}
      {learned.rightBeat + learned.rightSpeed > 0 && (
        <p>
          {t.right(
            learned.rightBeat > 0 ? amount("beat", learned.rightBeat) : undefined,
            learned.rightSpeed > 0 ? about("speed", learned.rightSpeed, 0.1) : undefined,
          )}
        </p>
      )}
      {first && (
        <p>
          {t.begun(amountOf(first.low), amountOf(first.high), first.marks)}{" "}
          <span class="soft">{t.toRest(learned.slow, learned.right, learned.fast)}</span>
        </p>
      )}
      {learned.why !== "" && !first && (
        <p class="soft">
          {learned.slow + learned.right + learned.fast > 0
            ? t.missing(learned.slow, learned.right, learned.fast)
            : t.unclear}{" "}
          {rule &&
            t.practice(amount("speed", rule.speedLow), amount("speed", rule.speedHigh), fromDesk(rule.label))}
        </p>
      )}
      {isFresh() && (
        <button type="button" class="button" onClick={once(() => noteBeat(spoon))}>
          {t.justNote}
        </button>
      )}
      {marks.value.some((mark) => mark.spoon === spoon) && (
        <button type="button" class="button" onClick={once(() => forget(spoon))}>
          {t.forget}
        </button>
      )}
    </section>
  );
}

/** One end of a band, with its doubt. */
const amountOf = (end: Interval): string => banded("speed", end);

const roundShare = (share: number): number => Math.round(share * 20) / 20;

function forget(spoon: string): void {
  const before = marks.value;
  marks.set(before.filter((mark) => mark.spoon !== spoon));
  offerUndo(t.forgotten, () => marks.set(before));
}
