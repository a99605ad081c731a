/** Bringing the app to the home screen, step by step, for this phone or for one held up beside it. */
import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { On } from "../../../base/parts/icons";
import { Choices } from "../../../base/parts/input/choices";
import { Page } from "../../../base/parts/page";
import { installed, installOffer } from "../../../base/phone/install";
import { type Platform, platform } from "../../../base/phone/platform";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { numeral } from "../../../base/units/show";
import { standing, you } from "../../../state/log/log";

export function InstallPage() {
  const of = useSignal<Platform>(platform());
  const t = text.ready.install;
  return (
    <Page title={t.title} back={href("locker", "ready")}>
      {installed() && <p class="large-words">{text.ready.checks.install.good}</p>}
      <Choices
        label={t.which}
        choices={(["ios", "android", "computer"] as const).map((value) => ({
          value,
          name: t.platforms[value],
        }))}
        value={of.value}
        onChoose={(value) => {
          of.value = value;
        }}
      />
      {of.value === "ios" && <StartsEmpty />}
      {of.value === platform() && installOffer.value && (
        <button type="button" class="button primary" onClick={once(installOffer.value)}>
          {text.ready.checks.install.act}
        </button>
      )}
      <ol class="install-steps">
        {t.steps[of.value].map((words, i) => (
          <li key={words}>
            {of.value === "ios" && pictures[i]}
            <p>
              <b>{numeral(i + 1)}.</b> {words}
            </p>
          </li>
        ))}
      </ol>
      {of.value === "ios" ? (
        <a class="button" href={href("enrol")}>
          {text.enrol.title} <On />
        </a>
      ) : (
        <a class="button" href={href("locker", "ready", "first")}>
          {text.enrol.on.ready} <On />
        </a>
      )}
    </Page>
  );
}

/** On iPhone and iPad the app on the home screen begins with nothing of what the browser holds. */
function StartsEmpty() {
  const t = text.ready.install;
  const { unsent } = standing.value;
  return (
    <div class="notice several">
      <p>{t.empty}</p>
      <p>{unsent === 0 ? t.nothingHere : you.value ? t.sendFirst(unsent) : t.saveFirst(unsent)}</p>
      {unsent > 0 && (
        <a class="button" href={href("notes", "unsent")}>
          {text.exchange.title} <On />
        </a>
      )}
    </div>
  );
}

const draw = (children: ComponentChildren) => (
  <svg class="install-picture" viewBox="0 0 120 84" aria-hidden="true">
    {children}
  </svg>
);

/** What to look for on the screen, in plain lines. */
const pictures = [
  draw(<path d="M6 78h108M46 34h-10v36h48V34H74M60 54V10M48 22l12-12 12 12" />),
  draw(
    <>
      <path d="M6 18h108v48H6zM18 36h48M18 48h32" />
      <path d="M84 30h20v24H84zM94 35v14M87 42h14" />
    </>,
  ),
  draw(
    <>
      <path d="M6 10h108M6 34h108" />
      <path d="M80 16h28v12H80z" />
      <path d="M18 46h24v24H18zM52 52h50M52 64h34" />
    </>,
  ),
  draw(
    <>
      <path d="M34 4h52v76H34zM54 72h12" />
      <path d="M44 16h12v12H44zM64 16h12v12H64zM44 38h12v12H44z" />
      <path class="install-here" d="M64 38h12v12H64z" />
    </>,
  ),
];
