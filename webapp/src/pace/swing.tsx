/** How the speed swings in the seas, and what that would do to the rod in hand. */
import { gear, pick } from "../gear/gear";
import { placeName } from "../gear/names";
import { useAnswer } from "../lines/ask";
import { doubtNow } from "../lines/doubt";
import { spreadFor } from "../lines/request";
import type { Rod } from "../lines/spread";
import { spread } from "../lines/spread";
import { selected } from "../lines/state";
import { properties } from "../lines/water";
import { text } from "../text/text";
import { about } from "../units/show";
import { inSi, roundTo } from "../units/units";
import type { Pace } from "./pace";

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
