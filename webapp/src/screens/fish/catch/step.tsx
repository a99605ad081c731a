/** The frame of a step: one large page, with what to do next at the thumb. */
import { useSignal } from "@preact/signals";
import type { ComponentChildren, ComponentType } from "preact";
import { useEffect } from "preact/hooks";
import { Gone } from "../../../base/parts/gone";
import { Camera, Check } from "../../../base/parts/icons";
import { Page } from "../../../base/parts/page";
import { useSeconds } from "../../../base/parts/seconds";
import { now } from "../../../base/position/moment";
import { considered, once } from "../../../base/shell/guard";
import { go, goInstead, href } from "../../../base/shell/route";
import type { Advice } from "../../../base/text/en/fish";
import { text } from "../../../base/text/text";
import { change, type Fish, fishOf, type Step } from "../../../state/fish/fishes";
import { isAnother, landedElsewhere, noteOf } from "../../../state/fish/noting";
import { running } from "../../../state/log/log";
import { useTrip } from "../../../state/log/refer";
import { recordWords, writerWords } from "../../../state/notes/words";
import { photosOf } from "../../../state/photos/of";
import { fishName } from "../parts/names";
import { sinceWords } from "../parts/times";

const t = text.fish;

/** Goes on to a step; only the place stays behind it in the history. */
export function toStep(id: string, step: Step | "over"): void {
  change(id, { step });
  if (step === "over") goInstead("fish");
  else goInstead("fish", step, id);
}

/** A page about the fish of its address. */
export const ofFish = (Show: ComponentType<{ fish: Fish }>) =>
  function Step({ id }: { id: string }) {
    const fish = fishOf(id);
    return fish ? <Show fish={fish} /> : <Gone back={href("fish")} />;
  };

interface Props {
  fish: Fish;
  step: Step;
  /** Instead of “Land it” and so on. */
  title?: string;
  children: ComponentChildren;
  /** At the thumb. */
  foot: ComponentChildren;
}

export function StepPage({ fish, step, title = t.steps[step], children, foot }: Props) {
  useTrip(fish.note.split(".")[0] || undefined);
  const photos = photosOf({ id: fish.note.split(".")[1] ?? "" }).length;
  return (
    <Page title={title} kind="fish-step" foot={<div class="page-foot told-foot step-foot">{foot}</div>}>
      {(fish.length > 0 || fish.person) && <p class="soft">{t.whose(fishName(fish), fish.person)}</p>}
      <Elsewhere fish={fish} />
      {children}
      {running.value && (
        <button type="button" class="button" onClick={once(() => photograph(fish))}>
          <Camera />
          <span>
            {text.notes.photos.ofIt}
            {photos > 0 && <small>{text.notes.photos.several(photos)}</small>}
          </span>
        </button>
      )}
    </Page>
  );
}

/** Two that have a fish on may have tapped the same hookup: the second would say of the first fish what is of its own. */
function Elsewhere({ fish }: { fish: Fish }) {
  const other = landedElsewhere(fish);
  return (
    other && (
      <div class="notice">
        <p>{t.elsewhere(writerWords(other.by), recordWords(other.record))}</p>
        <div class="notice-actions">
          <button type="button" class="button" onClick={once(() => isAnother(fish.id))}>
            {t.another}
          </button>
        </div>
      </div>
    )
  );
}

/** On the page of Notes for it, from which one comes back here. */
function photograph(fish: Fish): void {
  const note = noteOf(fish);
  if (note) go("notes", "photo", note);
}

interface FootButtonProps {
  children: ComponentChildren;
  primary?: boolean;
  off?: boolean;
  /** What becomes of the fish: nobody means that with the second of two taps. */
  decides?: boolean;
  onTap: () => void;
}

export const FootButton = ({ decides, ...rest }: FootButtonProps) => {
  const Button = decides ? Deciding : Plain;
  return <Button {...rest} />;
};

/** It looks as long as nobody can mean it as if there were nothing to tap. */
export function Deciding({ off, ...rest }: Omit<FootButtonProps, "decides">) {
  const early = useSignal(true);
  useEffect(() => {
    const timer = setTimeout(() => {
      early.value = false;
    }, considered);
    return () => clearTimeout(timer);
  }, []);
  return <Plain off={off || early.value} {...rest} />;
}

const Plain = ({ children, primary, off, onTap }: Omit<FootButtonProps, "decides">) => (
  <button type="button" class={primary ? "button primary" : "button"} disabled={off} onClick={once(onTap)}>
    {children}
  </button>
);

interface TicksProps {
  fish: Fish;
  step: Step;
  advice: Advice[];
}

/** What to do, to tick; where it is from. */
export function Ticks({ fish, step, advice }: TicksProps) {
  const [first] = advice;
  const one = advice.every(({ source }) => source === first?.source) && first?.source;
  return (
    <>
      <ul class="links ticks">
        {advice.map(({ what, source }, i) => {
          const key = `${step}${i}`;
          const done = fish.ticks.includes(key);
          const ticks = done ? fish.ticks.filter((one) => one !== key) : [...fish.ticks, key];
          return (
            <li key={key}>
              <button
                type="button"
                class="button"
                aria-pressed={done}
                onClick={once(() => change(fish.id, { ticks }))}
              >
                <span>
                  {what}
                  {source && !one && <small class="soft">{t.source(source)}</small>}
                </span>
                <span class="tick">{done && <Check />}</span>
              </button>
            </li>
          );
        })}
      </ul>
      {one && <p class="soft">{t.source(one)}</p>}
      {advice.some(({ source }) => !source) && <p class="soft">{t.practice}</p>}
    </>
  );
}

/** How long it is out of the water, or the tap that begins to count. */
export function OutOfWater({ fish }: { fish: Fish }) {
  useSeconds();
  const m = t.measure;
  return (
    <div class="out-of-water">
      {fish.out ? (
        <p class="large-words" role="timer">
          {m.outFor(sinceWords(fish.out))}
        </p>
      ) : null}
      <button
        type="button"
        class="button"
        onClick={once(() => change(fish.id, { out: fish.out ? null : now() }))}
      >
        {fish.out ? m.back : m.out}
      </button>
    </div>
  );
}
