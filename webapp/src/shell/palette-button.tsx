/** One tap to the next of day, dusk and night. */
import type { ComponentType } from "preact";
import { Day, Dusk, Night } from "../parts/icons";
import { text } from "../text/text";
import { once } from "./guard";
import { nextPalette, type Palette, palette, setPalette } from "./palette";

const icons: { [P in Palette]: ComponentType } = { day: Day, dusk: Dusk, night: Night };

export function PaletteButton() {
  const Icon = icons[palette.value];
  return (
    <button
      type="button"
      class="corner"
      aria-label={text.palettes.change(palette.value, nextPalette())}
      onClick={once(() => setPalette(nextPalette()))}
    >
      <Icon />
      <span aria-hidden="true">{text.palettes.names[palette.value]}</span>
    </button>
  );
}
