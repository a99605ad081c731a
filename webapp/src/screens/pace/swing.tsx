/** How the speed swings in the seas, and what that would do to the rod in hand. */

import { useAnswer } from "../../base/desk/ask";
import { text } from "../../base/text/text";
import { about } from "../../base/units/show";
import { inSi, roundTo } from "../../base/units/units";
import { gear, pick } from "../../state/gear/gear";
import { placeName } from "../../state/gear/names";
import type { Pace } from "../../state/pace/pace";
import { doubtNow } from "../../state/spread/doubt";
import { spreadFor } from "../../state/spread/request";
import { selected } from "../../state/spread/solved";
import type { Rod } from "../../state/spread/spread";
import { spread } from "../../state/spread/spread";
import { properties } from "../../state/spread/water";

export function Swing({ of }: { of: Pace }) {
  const { swing, speed } = of.motion;
  const rod = selected.value;
  if (!swing) return null;
  // The water moves along: it swings through the water as over the ground.
  const through = (ground: number) => Math.max(0, of.water.mid + ground - speed);
  return (
    <section>
      <p>{text.pace.swing(about("speed", swing.slow, 0.1), about("speed", swing.fast, 0.1))}</p>
      {rod && <Depths rod={rod} slow={through(swing.slow)} fast={through(swing.fast)} />}
    </section>
  );
}

function Depths({ rod, slow, fast }: { rod: Rod; slow: number; fast: number }) {
  const atSlow = useDepth(rod, slow);
  const atFast = useDepth(rod, fast);
  if (atSlow === undefined || atFast === undefined) return null;
  const place = placeName(pick(gear.value.places, rod.place));
  return (
    <p class="soft">{text.pace.swingDepth(place, about("depth", atSlow, 1), about("depth", atFast, 1))}</p>
  );
}

/** Where the rod's lure rides at a steady speed, which is rounded so that little changes ask nothing. */
function useDepth(rod: Rod, speed: number): number | undefined {
  const step = 0.1;
  const rounded = Math.max(roundTo(speed / inSi.kn, step), step) * inSi.kn;
  const at = { ...spread.value, rods: [rod], speed: Math.min(rounded, 10) };
  const { answer } = useAnswer("spread", spreadFor(gear.value, at, properties.value, doubtNow.value));
  const [only] = answer?.rods ?? [];
  return only && !only.trouble ? only.depth.mid : undefined;
}
