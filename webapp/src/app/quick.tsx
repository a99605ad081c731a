/** In reach from every place, at the thumb: a hookup and a fish, one tap each. */
import type { ComponentChildren } from "preact";
import { Fish, Hook } from "../base/parts/icons";
import { once } from "../base/shell/guard";
import { tapped } from "../base/store/tapped";
import { text } from "../base/text/text";
import { whenHere } from "./come";

const does = (what: "mark" | "up") => () => {
  const tap = tapped(what);
  return whenHere((all) => all[what](tap));
};
const [mark, up] = [does("mark"), does("up")];

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
