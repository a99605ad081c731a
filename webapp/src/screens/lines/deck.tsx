/** What is set while fishing, in reach of one thumb: four dials, the one in hand with large buttons. */
import { signal } from "@preact/signals";
import { sayProblem, saySomewhere } from "../../base/parts/input/problem";
import { Stepper } from "../../base/parts/input/stepper";
import { once } from "../../base/shell/guard";
import { wide } from "../../base/shell/wide";
import { text } from "../../base/text/text";
import { exact, unitName } from "../../base/units/show";
import type { Quantity } from "../../base/units/units";
import { gear } from "../../state/gear/gear";
import { setByHand } from "../../state/pace/follow";
import { paceSettings } from "../../state/pace/settings";
import { change, changeRod, complaint, selected } from "../../state/spread/solved";
import { type Spread, spread } from "../../state/spread/spread";

type Dial = "lineOut" | "drail" | "speed" | "bottom";

const quantities: { [D in Dial]: Quantity } = {
  lineOut: "line",
  drail: "weight",
  speed: "speed",
  bottom: "depth",
};
/** Where the desk's problems with a dial are found. */
const fields: { [D in Dial]: RegExp } = {
  lineOut: /\.lineOut$/,
  drail: /\.drails\[\d+\]\.mass$/,
  speed: /^sea\.speed$/,
  bottom: /^sea\.bottom$/,
};
const dials = Object.keys(quantities) as Dial[];

const inHand = signal<Dial>("lineOut");

function settingOf(dial: Dial, s: Spread): number | undefined {
  return dial === "speed" || dial === "bottom" ? s[dial] : selected.value?.[dial];
}

function set(dial: Dial, si: number): void {
  if (dial === "speed") setByHand();
  if (dial === "speed" || dial === "bottom") change({ [dial]: si });
  else if (selected.value) changeRod(selected.value.id, { [dial]: si });
}

/** The next of the drails aboard, heavier or lighter; none is the lightest. */
function nextDrail(mass: number, by: 1 | -1): number {
  const aboard = [0, ...gear.value.drails.map((d) => d.mass)].sort((a, b) => a - b);
  const next = by > 0 ? aboard.find((m) => m > mass + 1e-6) : aboard.findLast((m) => m < mass - 1e-6);
  return next ?? mass;
}

export function Deck() {
  return (
    <section class="deck" aria-label={text.lines.deck}>
      {wide.value ? (
        dials.map((dial) => <DialStepper key={dial} dial={dial} />)
      ) : (
        <>
          <DialStepper dial={inHand.value} />
          <div class="dials">
            {dials.map((dial) => (
              <DialButton key={dial} dial={dial} value={settingOf(dial, spread.value)} />
            ))}
          </div>
        </>
      )}
    </section>
  );
}

function DialStepper({ dial }: { dial: Dial }) {
  const { rods } = spread.value;
  const value = settingOf(dial, spread.value);
  const rod = selected.value;
  const forRod = dial === "lineOut" || dial === "drail";
  if (value === undefined) return null;
  return (
    <Stepper
      key={`${dial} ${forRod ? rod?.id : ""}`}
      label={text.lines.dials[dial]}
      quantity={quantities[dial]}
      si={value}
      onChange={(si) => set(dial, si)}
      note={note(dial, forRod && rods.findIndex((r) => r.id === rod?.id) + 1)}
      problem={trouble(dial)}
      {...(dial === "drail" && { step: nextDrail, zero: text.lines.none })}
    />
  );
}

/** What the number belongs to. */
function note(dial: Dial, rod: number | false): string {
  if (rod !== false) return text.lines.oneRod(rod);
  return dial === "speed" && paceSettings.value.follow ? text.lines.speed.fromPace : text.lines.allRods;
}

function DialButton({ dial, value }: { dial: Dial; value: number | undefined }) {
  const number = value === undefined ? "" : exact(quantities[dial], value);
  return (
    <button
      type="button"
      class="dial"
      aria-pressed={inHand.value === dial}
      onClick={once(() => {
        inHand.value = dial;
        complaint.value = undefined;
      }, 0)}
    >
      <span>{text.lines.dials[dial]}</span>
      <b>
        {dial === "drail" && value === 0 ? text.lines.none : `${number}\u00a0${unitName(quantities[dial])}`}
      </b>
    </button>
  );
}

/** The complaint in words, named when it is not about the dial in hand. */
function trouble(dial: Dial): string | undefined {
  const problem = complaint.value;
  if (!problem) return undefined;
  const about = dials.find((d) => fields[d].test(problem.field));
  if (about === dial) return sayProblem(problem, quantities[dial]);
  if (wide.value && (about ?? dials[0]) !== dial) return undefined;
  return saySomewhere(problem);
}
