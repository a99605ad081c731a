/** The locker: what belongs to the boat and this phone rather than to a place. */

import { StillAside } from "../../base/parts/aside";
import { On } from "../../base/parts/icons";
import { Choices } from "../../base/parts/input/choices";
import { Page } from "../../base/parts/page";
import { palette, palettes, setPalette } from "../../base/shell/palette";
import { href } from "../../base/shell/route";
import { choose, languageOfPhone, languages } from "../../base/text/spoken/language";
import { text } from "../../base/text/text";
import { settings } from "../../base/units/settings";
import { type Units, unitChoices } from "../../base/units/units";
import { Version } from "./version";

export function LockerPage() {
  const t = text.locker;
  return (
    <Page title={t.title} back={href("lines")}>
      <StillAside />
      <ul class="links">
        <Link to={["locker", "ready"]} name={text.ready.title} about={text.ready.about} />
        <Link to={["enrol"]} name={text.enrol.title} about={text.enrol.about} />
        <Link to={["gear"]} name={text.gear.title} about={text.gear.about} />
        <Link to={["locker", "water"]} name={text.lines.water.title} about={text.lines.water.about} />
        <Link to={["locker", "doubt"]} name={text.lines.doubt.title} about={text.lines.doubt.about} />
        <Link to={["start"]} name={text.start.title} about={text.start.about} />
        <Link to={["locker", "cautions"]} name={text.cautions.title} about={text.cautions.about} />
        <Link to={["locker", "about"]} name={text.about.title} about={text.about.about} />
      </ul>
      <Choices
        label={t.language}
        choices={Object.entries(languages).map(([value, name]) => ({ value, name }))}
        value={text.language}
        onChoose={choose}
      />
      {languageOfPhone() !== text.language && (
        <p class="notice" role="status">
          {text.about.languageLater}
        </p>
      )}
      <Choices
        label={text.palettes.title}
        choices={palettes.map((value) => ({ value, name: text.palettes.names[value] }))}
        value={palette.value}
        onChoose={setPalette}
      />
      {(Object.keys(unitChoices) as (keyof Units)[]).map((kind) => (
        <UnitChoice key={kind} kind={kind} />
      ))}
      <p class="soft">{text.about.knots}</p>
    </Page>
  );
}

function Link({ to, name, about }: { to: string[]; name: string; about: string }) {
  return (
    <li>
      <a class="button" href={href(...to)}>
        <span>
          {name}
          <small class="soft">{about}</small>
        </span>
        <On />
      </a>
    </li>
  );
}

function UnitChoice<K extends keyof Units>({ kind }: { kind: K }) {
  const { value } = settings.signal;
  return (
    <Choices
      label={text.locker.units[kind]}
      choices={unitChoices[kind].map((unit) => ({ value: unit, name: text.unitsInWords[unit] }))}
      value={value.units[kind]}
      onChoose={(unit) => settings.set({ ...value, units: { ...value.units, [kind]: unit } })}
    />
  );
}

export const CautionsPage = () => (
  <Page title={text.cautions.title} back={href("locker")}>
    <ul class="prose">
      {text.about.cautions.map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
    </ul>
  </Page>
);

export const AboutPage = () => (
  <Page title={text.about.title} back={href("locker")}>
    <Version />
    {text.about.sections.map((section) => (
      <section key={section.title}>
        <h2>{section.title}</h2>
        {section.paragraphs.map((paragraph) => (
          <p key={paragraph}>{paragraph}</p>
        ))}
      </section>
    ))}
  </Page>
);
