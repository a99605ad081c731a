/** The Lines place: picture, rods, and what is set while fishing. */
import { computed } from "@preact/signals";
import { Place } from "../../base/parts/place";
import { pose } from "../../base/shell/pose";
import { text } from "../../base/text/text";
import { selected } from "../../state/spread/solved";
import { spread } from "../../state/spread/spread";
import { Deck } from "./deck";
import { firstTold } from "./first-notice";
import { Picture } from "./picture";
import { LegendAside, RodList } from "./rods";
import { after, TouchButton } from "./touch-button";

/** The caution, which takes the most room, stands whole where nothing else is told; else it is one tap away. */
const told = () => [...(after.here.value?.told() ?? []), firstTold()];

const Foot = after(({ Foot }) => Foot);
const RodDetail = after(({ RodDetail }) => RodDetail);

const begun = computed(() => spread.value.rods.length > 0);

export function LinesScreen() {
  // The very first start, until the calculator has told what to begin with.
  if (!begun.value) {
    return (
      // Not the same as later: what would only have moved is there anew.
      <Place key="first" title={text.places.lines} kind="lines" deckName={text.lines.deck}>
        <p class="large-words">{text.lines.firstStart}</p>
      </Place>
    );
  }
  const rod = selected.value;
  // On one page what is dialled stands by what it is about, before all that one asks less often.
  const flows = pose.value === "flow";
  return (
    <Place
      title={text.places.lines}
      kind="lines"
      head={<Picture />}
      told={told}
      deck={
        <>
          {pose.value === "sideways" && <LegendAside />}
          {!flows && <Deck />}
        </>
      }
      deckName={text.lines.deck}
      quick={rod && <TouchButton rod={rod} />}
      aside={pose.value === "wide" && rod && <RodDetail rod={rod} />}
    >
      <RodList />
      {flows && <Deck />}
      <Foot />
    </Place>
  );
}
