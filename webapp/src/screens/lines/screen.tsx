/** The Lines place: picture, rods, and what is set while fishing. */
import { computed } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Notices } from "../../base/parts/around";
import { wide } from "../../base/shell/wide";
import { text } from "../../base/text/text";
import { selected } from "../../state/spread/solved";
import { spread } from "../../state/spread/spread";
import { ContradictionNotice } from "./calibrate/notice";
import { Deck } from "./deck";
import { RodDetail } from "./detail";
import { FirstCaution } from "./first-caution";
import { Picture } from "./picture";
import { RiseNotice } from "./rise/notice";
import { RodList } from "./rods";
import { SpeedNotice } from "./speed-notice";

const begun = computed(() => spread.value.rods.length > 0);

export function LinesScreen() {
  useEffect(() => {
    document.title = `${text.places.lines} · ${text.app.name}`;
  }, []);
  // The very first start, until the calculator has told what to begin with.
  if (!begun.value) {
    return (
      <main class="page">
        <h1>{text.places.lines}</h1>
        <Notices />
        <p class="large-words">{text.lines.firstStart}</p>
      </main>
    );
  }
  return (
    <main class="lines">
      <h1 class="visually-hidden">{text.places.lines}</h1>
      <Picture />
      <div class="lines-list">
        <Notices />
        <RiseNotice linked />
        <SpeedNotice />
        <ContradictionNotice />
        <FirstCaution />
        <RodList />
      </div>
      <Deck />
      {wide.value && <SelectedDetail />}
    </main>
  );
}

const SelectedDetail = () => (
  <div class="lines-detail">{selected.value && <RodDetail rod={selected.value} />}</div>
);
