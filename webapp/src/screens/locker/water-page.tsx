/** How warm and how salt the water is. */
import { limits as sea } from "../../base/desk/types/seawater.gen";
import { limits as towed } from "../../base/desk/types/towline.gen";
import { FirstSet } from "../../base/parts/first-set";
import { Choices } from "../../base/parts/input/choices";
import { LimitedStepper } from "../../base/parts/input/limited";
import { liveWords } from "../../base/parts/live/live";
import { Page } from "../../base/parts/page";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { about, bare } from "../../base/units/show";
import { letGo, warmthNow } from "../../state/instruments/taken";
import { firstWater, properties, water, waterAsFirst } from "../../state/spread/water";

/** Salinities to choose between, from memory; open sea is what the desk takes by itself. */
const salinities = { open: firstWater.salinity, bay: 28, mouth: 15, river: 0 };
type Place = keyof typeof salinities;
const places = Object.keys(salinities) as Place[];

export function WaterPage() {
  const { value } = water.signal;
  const t = text.lines.water;
  const warmth = warmthNow();
  // What the answers on Lines are computed with.
  const used = properties.value ?? {
    density: towed.Water.density.default,
    viscosity: towed.Water.viscosity.default,
  };
  return (
    <Page title={t.title} back={href("locker")}>
      <p>{t.what}</p>
      <FirstSet kept={water} first={firstWater} is={waterAsFirst(value)} />
      <LimitedStepper
        label={t.temperature}
        quantity="temperature"
        si={value.temperature}
        limits={sea.Query.temperature}
        onChange={(temperature) => {
          letGo("warmth");
          water.set({ ...value, temperature });
        }}
        note={warmth && liveWords(warmth.age)}
      />
      <Choices
        label={t.salinity}
        choices={places.map((place) => ({
          value: place,
          name: t.salinities(t.places[place], bare(salinities[place])),
        }))}
        value={places.find((place) => salinities[place] === value.salinity) ?? ""}
        onChoose={(place) => place && water.set({ ...value, salinity: salinities[place] })}
      />
      <p class="soft">{t.salt}</p>
      <p>{t.used(about("density", used.density, 0.001), about("viscosity", used.viscosity, 0.01))}</p>
    </Page>
  );
}
