/** The rods of the spread, one glance each. */
import { signal } from "@preact/signals";
import type { RodAnswer } from "../../base/desk/types/towline.gen";
import { On } from "../../base/parts/icons";
import { calm } from "../../base/shell/calm";
import { once } from "../../base/shell/guard";
import { pose } from "../../base/shell/pose";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { about, amount, inTen, unitName } from "../../base/units/show";
import { clock, day } from "../../base/units/when";
import { gear, pick } from "../../state/gear/gear";
import { placeName } from "../../state/gear/names";
import { takeIn, weightOn } from "../../state/spread/request";
import { answerFor, type Solved, select, selected, selectedId, solved } from "../../state/spread/solved";
import { type Rod, spread } from "../../state/spread/spread";
import { OddsBar, oddsWords, VerdictMark } from "./verdict";
import { adviceWords, briefAdvice, clearWords, depthParts, riseWords, weightWords } from "./words";

export const readouts = calm(solved);

export function RodList() {
  const { rods } = spread.value;
  return (
    <>
      {pose.value !== "sideways" && <Legend />}
      <ol class="rods" aria-label={text.lines.rods}>
        {rods.map((rod, i) => (
          <RodRow key={rod.id} rod={rod} number={i + 1} of={readouts.value} />
        ))}
      </ol>
    </>
  );
}

/** What the numbers are, for who sees them for the first time; each row says it to who hears it. */
function Legend() {
  const { depth, odds } = text.lines.legend;
  return (
    <p class="rods-legend soft" aria-hidden="true">
      <span>{depth(unitName("depth"))}</span>
      <span>{odds}</span>
    </p>
  );
}

/** The same where it stands away from the rows: with the numbers of the rod in hand. */
export function LegendAside() {
  const rod = selected.value;
  const answer = rod && answerFor(readouts.value, rod);
  if (!answer || spread.value.allIn || answer.trouble) return null;
  const { depth, odds } = text.lines.legend;
  return (
    <p class="rods-legend soft" aria-hidden="true">
      <span>
        <b>{depthParts(answer).number}</b> {depth(unitName("depth"))}
      </span>
      <span>
        <b>{inTen(answer.odds.inBand, text.odds.brief)}</b> {odds}
      </span>
    </p>
  );
}

/** One line for each rod: number, depth, verdict, what to do; the one in hand has more to say. */
function RodRow({ rod, number, of }: { rod: Rod; number: number; of: Solved | undefined }) {
  const { allIn } = spread.value;
  const answer = allIn ? undefined : answerFor(of, rod);
  const rig = pick(gear.value.rigs, rod.rig);
  const isSelected = selectedId.value === rod.id;
  const place = placeName(pick(gear.value.places, rod.place));
  // A rod that rides as planned has no word against it: the plan has said why it rides there.
  const held = rod.planned !== null && !answer?.trouble;
  // From numbers of earlier nobody is told what to do: they say as of when they are.
  const stale = of?.asOf;
  const rise = riseWords(rod, answer);
  const due = !!takeIn.value[rod.id];
  const off =
    answer !== undefined &&
    stale === undefined &&
    ((answer.verdict !== "in the band" && !held) || answer.advice.steps.length > 0);
  const brief = rise ?? (off && briefAdvice(answer, rig));
  const touches = answer?.risky && text.lines.odds.touch(inTen(answer.odds.touch));
  const said = brief || (stale === undefined && touches);
  return (
    <li class={isSelected ? "rod selected" : "rod"}>
      <button
        type="button"
        class="rod-face"
        aria-pressed={isSelected}
        {...(isSelected && { "aria-expanded": explained.value })}
        onClick={once(() => tapped(rod.id), 0)}
      >
        <span class="rod-number">
          {number}
          <span class="visually-hidden">{place}</span>
        </span>
        <DepthReadout answer={answer} />
        <span class="rod-say">
          {!answer && <span class="verdict">{allIn ? text.lines.isIn : text.lines.working}</span>}
          {answer?.trouble && <VerdictMark answer={answer} />}
          {/* The chance is for the depth that is dialled: beside an order for a rise it would be taken for one there. */}
          {answer && !answer.trouble && !rise && <OddsBar answer={answer} />}
          {said && <span class={due ? "rod-advice alarm" : "rod-advice"}>{said}</span>}
          <span class={answer && stale ? "soft" : "soft rod-set"}>
            {answer && stale ? text.lines.asOf(briefly(stale)) : briefSetting(rod)}
          </span>
        </span>
      </button>
      {isSelected && (
        <div class="rod-more">
          <span>
            <span class="rod-place">{place}</span>
            {answer && !answer.trouble && <>: {(said !== touches && touches) || clearWords(answer)}</>}
          </span>
          <a class="button" href={href("lines", "rod", rod.id)}>
            <span class="rod-more-word">{text.lines.more}</span> <On />
          </a>
        </div>
      )}
      {isSelected && explained.value && answer && !answer.trouble && (
        <Explained of={answer} advice={rise ?? (off && adviceWords(answer, rig))} />
      )}
    </li>
  );
}

/** Whether the row in hand says what its numbers mean. */
const explained = signal(false);

/** The first tap takes a rod in hand, the next asks what its row says. */
function tapped(rod: string): void {
  explained.value = rod === selectedId.value && !explained.value;
  select(rod);
}

function Explained({ of, advice }: { of: RodAnswer; advice: string | false }) {
  const { wanted } = spread.value;
  return (
    <p class="rod-explained">
      {advice && <b>{advice}. </b>}
      {text.lines.explained(
        about("depth", of.depth.low, 1),
        about("depth", of.depth.high, 1),
        amount("depth", wanted.low),
        amount("depth", wanted.high),
      )}{" "}
      {oddsWords(of)}
    </p>
  );
}

function DepthReadout({ answer }: { answer: RodAnswer | undefined }) {
  if (!answer || answer.trouble) return <span class="readout">–</span>;
  const { number, unit } = depthParts(answer);
  return (
    <span class="readout">
      {number} <small>{unit}</small>
    </span>
  );
}

/** The hour, or the day where it is another one: there is no room for both. */
const briefly = (at: number): string => (day(at) === day(Date.now()) ? clock(at) : day(at));

/** “200 ft, 8 oz”: all there is room for in a row. */
function briefSetting(rod: Rod): string {
  const weight = weightOn(gear.value, rod);
  return [amount("line", rod.lineOut), weight > 0 && amount("weight", weight)].filter(Boolean).join(", ");
}

/** “200 ft out, 8 oz drail”; of a three-way its sinker too. */
export const rodSetting = (rod: Rod): string =>
  text.lines.setting(amount("line", rod.lineOut), weightWords(rod));
