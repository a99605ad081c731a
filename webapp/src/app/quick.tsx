/** In reach from every place, at the thumb: a hookup and a fish, one tap each. */
import type { ComponentChildren } from "preact";
import { Fish, Hook } from "../base/parts/icons";
import { once } from "../base/shell/guard";
import { go } from "../base/shell/route";
import { text } from "../base/text/text";
import { fishUp } from "../state/fish/noting";
import { refer } from "../state/log/refer";
import { createMark } from "../state/notes/create";
import { inForce, speciesOf, watersNow } from "../state/rules/rules";

const mark = () => go("notes", "told", refer(createMark()));

/** It is taken for what the rules of these waters name first: mostly that is what is fished for. */
const up = () => go("fish", "land", fishUp(speciesOf(inForce(), watersNow())[0] ?? ""));

export function Quick({ children }: { children?: ComponentChildren }) {
  return (
    <div class="quick-bar">
      {children}
      <button type="button" class="mark-now" onClick={once(mark)}>
        <Hook />
        <span>{text.notes.mark}</span>
      </button>
      <button type="button" class="button fish-up" onClick={once(up)}>
        <Fish />
        <span>{text.fish.up}</span>
      </button>
    </div>
  );
}
