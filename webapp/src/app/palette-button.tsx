/** One tap to the next of day, dusk and night. */
import type { ComponentType } from "preact";
import { Day, Dusk, Night } from "../base/parts/icons";
import { once } from "../base/shell/guard";
import { nextPalette, type Palette, palette, setPalette } from "../base/shell/palette";
import { text } from "../base/text/text";

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
