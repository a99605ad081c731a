/** The spread from the side, to scale: surface, bottom, wanted band, every line with its uncertainty. */
import { computed, useSignal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { RodAnswer } from "../../base/desk/types/towline.gen";
import { text } from "../../base/text/text";
import { units } from "../../base/units/settings";
import { amount, numeral } from "../../base/units/show";
import { fromSi, inSi } from "../../base/units/units";
import { gear, pick } from "../../state/gear/gear";
import { placeName } from "../../state/gear/names";
import { answerFor, type Solved, select, selectedId, solved } from "../../state/spread/solved";
import { type Rod, spread } from "../../state/spread/spread";
import { readouts } from "./rods";
import { verdictWords } from "./verdict";
import { area, depthMarks, path, shaded, spaced, type View, viewOf } from "./view";
import { depthWords, offBottomWords } from "./words";

export function Picture() {
  const frame = useRef<HTMLDivElement>(null);
  const size = useSignal({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const box = frame.current as HTMLDivElement;
    const measure = () => {
      size.value = { width: box.clientWidth, height: box.clientHeight };
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(box);
    return () => observer.disconnect();
  }, [size]);
  const now = solved.value;
  const { width, height } = size.value;
  return (
    <div class="picture" ref={frame}>
      {now && width > 0 && <Side now={now} view={viewOf(now, width, height)} />}
      <p class="visually-hidden" aria-live="polite">
        {told}
      </p>
    </div>
  );
}

function Side({ now, view }: { now: Solved; view: View }) {
  const { bottom, wanted } = now.spread;
  const { width, height, x, y } = view;
  const chosen = selectedId.value;
  // The rod in hand is drawn last, on top.
  const order = now.spread.rods
    .map((rod, i) => ({ rod, number: i + 1, answer: now.rods[i] as RodAnswer }))
    .filter(({ answer }) => !answer.trouble && !spread.value.allIn)
    .sort((a, b) => Number(a.rod.id === chosen) - Number(b.rod.id === chosen));
  const tags = spaced(
    order.map(({ answer }) => x(answer.astern)),
    27,
    15,
  );
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the list of rods does the same by keyboard
    <svg
      width={width}
      height={height}
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={description}
      onClick={(event) => pickNearest(event, order, tags, view)}
    >
      <defs>
        <pattern id="ground" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(50)">
          <path class="ground-hatch" d="M0 0V9" />
        </pattern>
      </defs>
      <rect class="water" x="0" y={y(0)} width={width} height={Math.max(y(bottom) - y(0), 0)} />
      <rect
        class="wanted"
        x="-2"
        y={y(bottom - wanted.high)}
        width={width + 4}
        height={Math.max((wanted.high - wanted.low) * view.down, 1)}
      />
      <rect class="ground" x="0" y={y(bottom)} width={width} height={Math.max(height - y(bottom), 0)} />
      <rect fill="url(#ground)" x="0" y={y(bottom)} width={width} height={Math.max(height - y(bottom), 0)} />
      <path class="bottom" d={`M0 ${y(bottom)}H${width}`} />
      <path class="surface" d={`M0 ${y(0)}H${width}`} />
      {depthMarks(view, bottom, inSi[units().depth]).map((depth) => (
        <g key={depth} class="depth-mark">
          <path d={`M${width - 8} ${y(depth)}H${width}`} />
          <text x={width - 11} y={y(depth) + 6} text-anchor="end">
            {numeral(fromSi(depth, units().depth))}
          </text>
        </g>
      ))}
      <text class="ground-depth" x={width - 6} y={height - 8} text-anchor="end">
        {amount("depth", bottom)}
      </text>
      <Boat view={view} />
      {order.map(({ rod, answer }, i) => (
        <Towed key={rod.id} answer={answer} tag={tags[i] ?? 0} view={view} chosen={rod.id === chosen} />
      ))}
      {order.map(({ rod, number }, i) => (
        <Tag key={rod.id} number={number} at={tags[i] ?? 0} view={view} chosen={rod.id === chosen} />
      ))}
    </svg>
  );
}

interface TowedProps {
  answer: RodAnswer;
  /** Where its number stands, in pixels. */
  tag: number;
  view: View;
  chosen: boolean;
}

/** One line: its band, the line itself, dropper, drails, lure and the way to its number. */
function Towed({ answer, tag, view, chosen }: TowedProps) {
  const { curve, branch, hangs, astern, depth, verdict, likely } = answer;
  const { x, y } = view;
  const kind = verdict === "in the band" && likely ? "good" : verdict === "on the bottom" ? "alarm" : "off";
  return (
    <g class={`towed ${kind}${chosen ? " chosen" : ""}`}>
      {curve.low.length > 0 &&
        shaded(curve.depth, curve).map(({ share, low, high }) => (
          <path key={share} class="doubt" d={area(view, curve.astern, low, high)} />
        ))}
      <path class="doubt-bar" d={`M${x(astern)} ${y(depth.low)}V${y(depth.high)}`} />
      <path class="line" d={path(view, curve.astern, curve.depth)} />
      {branch.astern.length > 0 && <path class="line" d={path(view, branch.astern, branch.depth)} />}
      {hangs.map((hang) =>
        hang.name === "sinker" ? (
          <circle key={hang.name} class="weight" cx={x(hang.astern)} cy={y(hang.depth)} r="4" />
        ) : (
          <path
            key={hang.name}
            class="weight"
            d={`M${x(hang.astern) - 7} ${y(hang.depth)}l7 -3.5 7 3.5 -7 3.5z`}
          />
        ),
      )}
      <path class="spoon" d={`M${x(astern)} ${y(depth.mid)}q-5 -6 -11 -2q-2 5 3 6q5 0 8 -4z`} />
      <path class="tag-line" d={`M${x(astern) - 5} ${y(depth.mid) + 5}L${tag} ${view.height - 28}`} />
    </g>
  );
}

/** The number of a rod, over all lines. */
const Tag = ({ number, at, view, chosen }: { number: number; at: number; view: View; chosen: boolean }) => (
  <g class={chosen ? "chosen" : ""}>
    <g class="tag" transform={`translate(${at} ${view.height - 15})`}>
      <circle r="12" />
      <text y="6.5" text-anchor="middle">
        {number}
      </text>
    </g>
  </g>
);

/** The boat: an open hull with a rod at the stern. Not to scale; the rod tips are. */
function Boat({ view }: { view: View }) {
  const stern = view.x(0);
  const water = view.y(0);
  return (
    <g class="boat">
      <path d={`M${stern + 4} ${water - 9}h40q5 0 8 -4q-3 12 -12 18h-30q-6 -1 -6 -14z`} />
      <path class="boat-line" d={`M${stern + 20} ${water - 9}v-10h11l4 10`} />
    </g>
  );
}

/** So near, in pixels, one has tapped a lure or a number itself, whatever line lies over it. */
const itself = 12;

/**
 * A tap on the picture takes the nearest line in hand, and what is tapped at is a lure or a number sooner than a line
 * that passes by; the list does the same for those who cannot tap there.
 */
function pickNearest(
  event: MouseEvent,
  lines: { rod: Rod; answer: RodAnswer }[],
  tags: number[],
  view: View,
): void {
  const box = (event.currentTarget as Element).getBoundingClientRect();
  const [px, py] = [event.clientX - box.left, event.clientY - box.top];
  const distance = ({ curve, astern, depth }: RodAnswer, tag: number) =>
    Math.min(
      ...curve.astern.map((a, i) => Math.hypot(view.x(a) - px, view.y(curve.depth[i] ?? 0) - py)),
      (Math.hypot(view.x(astern) - px, view.y(depth.mid) - py) - itself) / 3,
      (Math.hypot(tag - px, view.height - 15 - py) - itself) / 3,
    );
  const nearest = lines
    .map(({ rod, answer }, i) => ({ rod, d: distance(answer, tags[i] ?? 0) }))
    .sort((a, b) => a.d - b.d)[0];
  if (nearest && nearest.d < 40) select(nearest.rod.id);
}

const nameOf = (rod: Rod) => placeName(pick(gear.value.places, rod.place));

function spoken(now: Solved, rod: Rod): string {
  const answer = answerFor(now, rod);
  if (spread.value.allIn || !answer || answer.trouble) return "";
  return text.lines.picture.rod(
    nameOf(rod),
    depthWords(answer),
    offBottomWords(answer),
    verdictWords(answer),
  );
}

/** What has changed for the rod in hand, to be read out. */
const told = computed(() => {
  const now = readouts.value;
  const rod = now?.spread.rods.find((r) => r.id === selectedId.value);
  return now && rod ? spoken(now, rod) : "";
});

/** The picture in words, for those who do not see it. */
const description = computed(() => {
  const now = readouts.value;
  if (!now) return "";
  const { bottom, rods } = now.spread;
  return [text.lines.picture.title(amount("depth", bottom)), ...rods.map((rod) => spoken(now, rod))]
    .filter(Boolean)
    .join(" ");
});
