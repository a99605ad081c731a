/** A number to slide, with a button on either side for wet fingers. */
import { Minus, Plus } from "../../../base/parts/icons";
import { echo, once } from "../../../base/shell/guard";
import { text } from "../../../base/text/text";

interface Props {
  label: string;
  value: number;
  most: number;
  /** The value in words. */
  words: string;
  onSlide: (value: number) => void;
}

export function Slider({ label, value, most, words, onSlide }: Props) {
  const by = (step: number) => () => onSlide(Math.min(most, Math.max(0, value + step)));
  return (
    <div class="slider">
      <button
        type="button"
        class="step"
        aria-label={text.parts.less(label)}
        onClick={once(by(-1), echo.step)}
      >
        <Minus />
      </button>
      <input
        type="range"
        min="0"
        max={most}
        step="1"
        value={value}
        aria-label={label}
        aria-valuetext={words}
        onInput={(event) => onSlide(Number(event.currentTarget.value))}
      />
      <button type="button" class="step" aria-label={text.parts.more(label)} onClick={once(by(1), echo.step)}>
        <Plus />
      </button>
    </div>
  );
}
