/** What is set while fishing, in reach of one thumb: four dials, the one in hand with large buttons. */
import { computed, signal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { limits } from "../../base/desk/types/towline.gen";
import { sayProblem, saySomewhere } from "../../base/parts/input/problem";
import { Stepper } from "../../base/parts/input/stepper";
import { Live, liveWords } from "../../base/parts/live/live";
import { once } from "../../base/shell/guard";
import { pose } from "../../base/shell/pose";
import { offerUndoOfRow } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { units } from "../../base/units/settings";
import { exact, unitName } from "../../base/units/show";
import type { Quantity } from "../../base/units/units";
import { gear } from "../../state/gear/gear";
import { sinkerAfter } from "../../state/gear/sinker";
import { depthHeard, valueHeard } from "../../state/instruments/heard";
import { letGo, taken } from "../../state/instruments/taken";
import { setByHand } from "../../state/pace/follow";
import { pace } from "../../state/pace/pace";
import { paceSettings } from "../../state/pace/settings";
import { sinkerOn } from "../../state/spread/request";
import { change, changeRod, complaint, selected } from "../../state/spread/solved";
import { type Rod, type Spread, spread } from "../../state/spread/spread";

/** The sinker of a three-way stands where other rods have their drail; one that carries a drail too has both. */
type Dial = "lineOut" | "drail" | "sinker" | "speed" | "bottom";

const quantities: { [D in Dial]: Quantity } = {
  lineOut: "line",
  drail: "weight",
  sinker: "weight",
  speed: "speed",
  bottom: "depth",
};
/** Where the desk's problems with a dial are found. */
const fields: { [D in Dial]: RegExp } = {
  lineOut: /\.lineOut$/,
  drail: /\.drails\[\d+\]\.mass$/,
  sinker: /\.dropper\.sinker$/,
  speed: /^sea\.speed$/,
  bottom: /^sea\.bottom$/,
};
const all = Object.keys(quantities) as Dial[];
const ofRod: Dial[] = ["lineOut", "drail", "sinker"];

/** Rods whose drail was turned down to none just now: their dial stays under the thumb that may turn it up again. */
const emptied = signal<string[]>([]);

const isThreeWay = (rod: Rod): boolean => sinkerOn(gear.value, rod) !== undefined;
const hasDrail = (rod: Rod): boolean => !isThreeWay(rod) || rod.drail > 0 || emptied.value.includes(rod.id);

const dials = computed(() => {
  const rod = selected.value;
  return all.filter((dial) =>
    dial === "drail" ? !rod || hasDrail(rod) : dial !== "sinker" || (rod && isThreeWay(rod)),
  );
});

const picked = signal<Dial>("lineOut");
/** Where the rod in hand has no such dial, the one in its place. */
const inHand = computed(() => (dials.value.includes(picked.value) ? picked.value : (dials.value[1] as Dial)));

function settingOf(dial: Dial, s: Spread): number | undefined {
  if (dial === "speed" || dial === "bottom") return s[dial];
  const rod = selected.value;
  return dial === "sinker" ? rod && sinkerOn(gear.value, rod) : rod?.[dial];
}

/** What is dialled for the rod in hand goes for all rods. */
export const together = signal(false);

function set(dial: Dial, si: number): void {
  const turned = together.value ? spread.value.rods : [selected.value];
  if (dial === "drail") emptied.value = turned.flatMap((rod) => (rod && hasDrail(rod) ? rod.id : []));
  if (together.value && ofRod.includes(dial)) {
    setAll(dial as "lineOut" | "drail" | "sinker", si);
    return;
  }
  const was = settingOf(dial, spread.value);
  const rod = selected.value?.id ?? "";
  if (dial === "speed") setByHand();
  if (dial === "bottom") letGo("depth");
  turn(dial, rod, si);
  if (was === undefined) return;
  const forRod = ofRod.includes(dial);
  const number = spread.value.rods.findIndex(({ id }) => id === rod) + 1;
  const what = text.lines.turned(text.lines.dials[dial], forRod ? number : 0, dialWords(dial, was));
  offerUndoOfRow(`${dial} ${forRod ? rod : ""}`, what, () => turn(dial, rod, was));
}

/** Line out: as much more or less for each; a weight: the same for each that has such. */
function setAll(dial: "lineOut" | "drail" | "sinker", si: number): void {
  const before = spread.value.rods;
  const was = settingOf(dial, spread.value);
  if (was === undefined) return;
  const least = limits.Rod.lineOut.min;
  const number = before.findIndex(({ id }) => id === selected.value?.id) + 1;
  const changed = before.map((rod) => {
    if (dial === "lineOut")
      return { ...rod, planned: null, lineOut: Math.max(least, rod.lineOut + si - was) };
    const has = dial === "sinker" ? isThreeWay(rod) : hasDrail(rod);
    return has ? { ...rod, planned: null, [dial]: si } : rod;
  });
  change({ rods: changed });
  const what = text.lines.turnedAll(text.lines.dials[dial], number, dialWords(dial, was));
  offerUndoOfRow(`${dial} all`, what, () => change({ rods: before }));
}

function turn(dial: Dial, rod: string, si: number): void {
  if (dial === "speed" || dial === "bottom") change({ [dial]: si });
  else changeRod(rod, { [dial]: si });
}

/** “220 ft”, or that there is none. */
const dialWords = (dial: Dial, si: number): string =>
  dial === "drail" && si === 0
    ? text.lines.none
    : `${exact(quantities[dial], si)}\u00a0${unitName(quantities[dial])}`;

/** The next of the drails aboard, heavier or lighter; none is the lightest. */
function nextDrail(mass: number, by: 1 | -1): number {
  const aboard = [0, ...gear.value.drails.map((d) => d.mass)].sort((a, b) => a - b);
  const next = by > 0 ? aboard.find((m) => m > mass + 1e-6) : aboard.findLast((m) => m < mass - 1e-6);
  return next ?? mass;
}

/** The next of the weights aboard that can hang there; beyond them as the trade has sinkers. */
function nextSinker(mass: number, by: 1 | -1): number {
  const { drails, rigs } = gear.value;
  const sizes = [...drails.map((d) => d.mass), ...rigs.flatMap(({ dropper }) => dropper?.sinker ?? [])];
  return sinkerAfter(mass, by, sizes, units().weight === "g");
}

export function Deck() {
  return (
    <>
      {pose.value === "wide" ? (
        dials.value.map((dial) => <DialStepper key={dial} dial={dial} />)
      ) : (
        <>
          <DialStepper dial={inHand.value} />
          <div class={dials.value.length > 4 ? "dials five" : "dials"}>
            {dials.value.map((dial) => (
              <DialButton key={dial} dial={dial} value={settingOf(dial, spread.value)} />
            ))}
          </div>
        </>
      )}
    </>
  );
}

function DialStepper({ dial }: { dial: Dial }) {
  const { rods } = spread.value;
  const value = settingOf(dial, spread.value);
  const rod = selected.value;
  const forRod = ofRod.includes(dial);
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
      {...(dial === "sinker" && { step: nextSinker })}
    />
  );
}

/** What the number belongs to. */
function note(dial: Dial, rod: number | false): ComponentChildren {
  if (rod !== false) return together.value ? text.lines.withAll(rod) : text.lines.oneRod(rod);
  const ofDepth = dial === "bottom" && taken.value.depth;
  // Where the dial below has its mark it is said in words.
  if (ofDepth && pose.value !== "wide") return depthNote();
  return (
    <>
      {dial === "speed" && paceSettings.value.follow ? text.lines.speed.fromPace : text.lines.allRods}{" "}
      {pose.value === "wide" && <Live age={() => liveAge(dial)} />}
    </>
  );
}

/** That it comes by itself, and how old it is. */
function depthNote(): string {
  const depth = depthHeard.value;
  return depth ? liveWords(depth.age) : text.lines.allRods;
}

/** How old, s, where it comes by itself from the boat's instruments. */
function liveAge(dial: Dial): number | undefined {
  if (dial === "bottom") return taken.value.depth ? depthHeard.value?.age : undefined;
  const byWheel = dial === "speed" && paceSettings.value.follow && pace.value?.byWheel;
  return byWheel ? valueHeard("waterSpeed")?.age : undefined;
}

function DialButton({ dial, value }: { dial: Dial; value: number | undefined }) {
  return (
    <button
      type="button"
      class="dial"
      aria-pressed={inHand.value === dial}
      onClick={once(() => {
        picked.value = dial;
        if (dial !== "drail") emptied.value = [];
        complaint.value = undefined;
      }, 0)}
    >
      <span>{text.lines.dials[dial]}</span>
      <b>{value !== undefined && dialWords(dial, value)}</b>
      <Live age={() => liveAge(dial)} />
    </button>
  );
}

/** The complaint in words, named when it is not about the dial in hand. */
function trouble(dial: Dial): string | undefined {
  const problem = complaint.value;
  if (!problem) return undefined;
  const about = all.find((d) => fields[d].test(problem.field));
  if (about === dial) return sayProblem(problem, quantities[dial]);
  if (pose.value === "wide" && (about ?? all[0]) !== dial) return undefined;
  return saySomewhere(problem);
}
