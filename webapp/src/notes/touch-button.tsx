/** One tap beside a rod: its lure has touched bottom. */
import type { Rod } from "../lines/spread";
import { Touch } from "../parts/icons";
import { once } from "../shell/guard";
import { text } from "../text/text";
import { offerBack, sayTouch } from "./say";

export const TouchButton = ({ rod }: { rod: Rod }) => (
  <button type="button" class="button touch-now" onClick={once(() => offerBack(sayTouch(rod)))}>
    <Touch /> {text.notes.noteTouch}
  </button>
);
