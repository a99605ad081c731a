/** In reach from every place, at the thumb: a hookup and a fish, one tap each. */
import type { ComponentChildren } from "preact";
import { Fish, Hook } from "../base/parts/icons";
import { once } from "../base/shell/guard";
import { text } from "../base/text/text";
import { whenHere } from "./come";

const mark = () => whenHere((all) => all.mark());
const up = () => whenHere((all) => all.up());

export function Quick({ children }: { children?: ComponentChildren }) {
  return (
    <div class="quick-bar">
      {children}
      <button type="button" class="mark-now" onClick={once(mark)}>
        <Hook />
        <span>{text.quick.mark}</span>
      </button>
      <button type="button" class="button fish-up" onClick={once(up)}>
        <Fish />
        <span>{text.quick.fishUp}</span>
      </button>
    </div>
  );
}
