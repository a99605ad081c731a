/** Below the rods: one more of them, and the ways on. */
import { Plus } from "../../base/parts/icons";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { newId } from "../../base/store/id";
import { text } from "../../base/text/text";
import { amount } from "../../base/units/show";
import { contradictions } from "../../state/calibrate/touches";
import { gear } from "../../state/gear/gear";
import { placeName } from "../../state/gear/names";
import { lessons } from "../../state/spread/learned";
import { changeUndoably, selected } from "../../state/spread/solved";
import { mostRods, type Rod, spread } from "../../state/spread/spread";
import { together } from "./deck";
import { takeAllIn } from "./heard/all-in";
import { Charted } from "./rise/charted";
import { RiseLink } from "./rise/link";

export function Foot() {
  const { rods } = spread.value;
  return (
    <>
      <div class="rod-list-foot">
        {rods.length > 1 && (
          <button
            type="button"
            class="button"
            aria-pressed={together.value}
            onClick={once(() => {
              together.value = !together.value;
            }, 0)}
          >
            {text.lines.together}
          </button>
        )}
        {!spread.value.allIn && (
          <button type="button" class="button" onClick={once(takeAllIn)}>
            {text.lines.allIn}
          </button>
        )}
        {rods.length < mostRods && (
          <button type="button" class="button" onClick={once(addRod)}>
            <Plus /> {text.lines.addRod}
          </button>
        )}
        <a class="button" href={href("lines", "turn")}>
          {text.turn.ask}
        </a>
        <a class="button" href={href("lines", "wanted")}>
          {text.lines.wantedNow(
            amount("depth", spread.value.wanted.low),
            amount("depth", spread.value.wanted.high),
          )}
        </a>
        <a class="button" href={href("lines", "plan")}>
          {text.plan.title}
        </a>
        <a class="button" href={href("lines", "teach")}>
          {text.teach.ask}
        </a>
        <RiseLink />
        <Charted />
        <a class="button" href={href("lines", "touches")}>
          {text.calibrate.link(lessons.value.used, contradictions.value.length)}
        </a>
      </div>
      <p class="soft">{text.cautions.estimate}</p>
    </>
  );
}

/** One more rod, set like the one in hand, in the first place that is free. */
function addRod() {
  const { rods } = spread.value;
  const like = selected.value ?? rods[0];
  const { places, rigs } = gear.value;
  const taken = new Set(rods.map((rod) => rod.place));
  const place = places.find((p) => !taken.has(p.id)) ?? places[0];
  const rig = rigs[0];
  if (!place || !rig) return;
  const rod: Rod = like
    ? { ...like, id: newId(), place: place.id, planned: null }
    : firstRod(place.id, rig.id, rig.wireLength / 2);
  changeUndoably(text.lines.added(placeName(place)), { rods: [...rods, rod], selected: rod.id });
}

const firstRod = (place: string, rig: string, lineOut: number): Rod => ({
  id: newId(),
  place,
  rig,
  lineOut,
  drail: 0,
  sinker: 0,
  planned: null,
});
