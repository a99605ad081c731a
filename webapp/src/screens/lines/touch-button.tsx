/** One tap beside a rod: its lure has touched bottom. */

import { Touch } from "../../base/parts/icons";
import { once } from "../../base/shell/guard";
import { text } from "../../base/text/text";
import { offerBack, sayTouch } from "../../state/notes/say";
import type { Rod } from "../../state/spread/spread";

export const TouchButton = ({ rod }: { rod: Rod }) => (
  <button type="button" class="button touch-now" onClick={once(() => offerBack(sayTouch(rod)))}>
    <Touch /> {text.notes.noteTouch}
  </button>
);
