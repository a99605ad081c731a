/**
 * Sounds of the app's own, made and not recorded: a few tones in a row, each alarm its own, so that one knows without
 * looking which it is. A phone makes none before somebody has touched the app.
 */

export type Tune = readonly (readonly [hertz: number, ms: number])[];

let audio: AudioContext | undefined;

/** From the first touch on it may sound. */
export function keepReadyToSound(): void {
  if (!("AudioContext" in window)) return;
  const ready = () => {
    audio ??= new AudioContext();
    if (audio.state === "suspended") audio.resume();
  };
  addEventListener("pointerdown", ready, { capture: true, passive: true });
}

/** Tones begin and end softly, so long, s: else they click. */
const soft = 0.012;

export function play(tune: Tune): boolean {
  if (audio?.state !== "running") return false;
  let at = audio.currentTime + 0.02;
  for (const [hertz, ms] of tune) {
    const long = ms / 1000;
    if (hertz > 0) tone(audio, hertz, at, long);
    at += long;
  }
  return true;
}

function tone(of: AudioContext, hertz: number, at: number, long: number): void {
  const from = of.createOscillator();
  const loud = of.createGain();
  // A square wave is heard over an engine.
  from.type = "square";
  from.frequency.value = hertz;
  loud.gain.setValueAtTime(0, at);
  loud.gain.linearRampToValueAtTime(0.6, at + soft);
  loud.gain.setValueAtTime(0.6, at + long - soft);
  loud.gain.linearRampToValueAtTime(0, at + long);
  from.connect(loud).connect(of.destination);
  from.start(at);
  from.stop(at + long);
}
