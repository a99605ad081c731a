/**
 * How the phone lies and how much fits on it, in letters and not in pixels: whoever reads in large print has a
 * smaller screen. The style sheets ask the same by data-pose at the root.
 */
import { effect, signal } from "@preact/signals";

/**
 * upright: list above deck. sideways: list beside deck, places at the edge. wide: everything side by side.
 * flow: too little room for parts that stay where they are; the page scrolls as one.
 */
export type Pose = "upright" | "sideways" | "wide" | "flow";

/** From width and height in letters of the app's own size (rem). */
export function poseOf(width: number, height: number): Pose {
  if (width >= 55.5 && height >= 31) return "wide";
  if (width >= 34 && height >= 15.5 && height < 31) return "sideways";
  if (width >= 17 && height >= 31) return "upright";
  return "flow";
}

const letter = () => Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 18;
const read = (): Pose => poseOf(innerWidth / letter(), innerHeight / letter());

export const pose = signal<Pose>(read());

/** Shows the pose to the style sheets, and follows the phone as it is turned or its letters grow. */
export function keepPose(): void {
  const again = () => {
    pose.value = read();
  };
  addEventListener("resize", again);
  const probe = document.createElement("div");
  probe.className = "letter-probe";
  document.body.append(probe);
  new ResizeObserver(again).observe(probe);
  effect(() => {
    document.documentElement.dataset.pose = pose.value;
  });
}
