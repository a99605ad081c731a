/** The Lines place: picture, rods, and what is set while fishing. */
import { useEffect } from "preact/hooks";
import { FirstCaution, Notices } from "../shell/notices";
import { text } from "../text/text";
import { Deck } from "./deck";
import { RodDetail } from "./detail";
import { Picture } from "./picture";
import { RodList } from "./rods";
import { selected } from "./state";

export function LinesScreen() {
  useEffect(() => {
    document.title = `${text.places.lines} · ${text.app.name}`;
  }, []);
  return (
    <main class="lines">
      <h1 class="visually-hidden">{text.places.lines}</h1>
      <Picture />
      <div class="lines-list">
        <Notices />
        <FirstCaution />
        <RodList />
      </div>
      <Deck />
      <div class="lines-detail">{selected.value && <RodDetail rod={selected.value} />}</div>
    </main>
  );
}
