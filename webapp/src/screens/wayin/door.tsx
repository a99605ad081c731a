/**
 * The way in over plain http: the phone gets the certificate of the boat's authority here, once. What comes
 * over plain http could be changed on its way, so the app itself is only served over https.
 */
import "../../base/style/base.css";
import "../../base/style/parts.css";
import "../../base/style/pages.css";
import "../../base/style/lists.css";
import "../../base/style/coming.css";
import "./door.css";
import { signal } from "@preact/signals";
import { render } from "preact";
import { Address } from "../../base/parts/address";
import { Elsewhere } from "../../base/parts/elsewhere";
import { Check, On } from "../../base/parts/icons";
import { Choices } from "../../base/parts/input/choices";
import { Fingerprint } from "../../base/parts/literal";
import { Notice } from "../../base/parts/notice";
import { firefoxOnAndroid, type Platform, platform } from "../../base/phone/platform";
import { once } from "../../base/shell/guard";
import { text } from "../../base/text/text";
import { askWays, type Boat } from "../../state/enrol/ways";

const t = text.wayIn.door;

const kinds: Platform[] = ["ios", "android", "computer"];

const app = `https://${location.host}`;

/** Where it goes on: the page where the phone asks to come aboard. Nothing that is secret is in this address. */
const onward = `${app}/#/enrol`;

/** Steps of the way after the door: a name and the skipper's yes, Ready for sea, the briefing. */
const afterwards = 3;

/** What the browser says that it runs on; the person can correct it. */
const kind = signal(platform());
const boat = signal<Boat | undefined>(undefined);
const standing = signal<"looking" | "trusted" | "stranger">("looking");

/** Asks the same server over https: only a phone that trusts the boat's certificate gets an answer. */
async function trusts(): Promise<boolean> {
  try {
    return (await fetch(`${app}/api/trusted`, { cache: "no-store" })).ok;
  } catch {
    return false;
  }
}

async function look(): Promise<void> {
  standing.value = (await trusts()) ? "trusted" : "stranger";
  // Nothing is left to do here: straight on.
  if (standing.value === "trusted") location.replace(onward);
}

function Door() {
  if (standing.value === "looking") return <main class="page" aria-busy="true" />;
  return (
    <main class="page">
      <h1>{text.app.name}</h1>
      {standing.value === "trusted" ? (
        <Open />
      ) : boat.value ? (
        <Steps boat={boat.value} />
      ) : (
        <p class="notice">{text.enrol.unreachable}</p>
      )}
    </main>
  );
}

function Open() {
  return (
    <>
      <p class="verdict good" role="status">
        <Check /> {t.trusted}
      </p>
      <p>{t.next}</p>
      <a class="button primary" href={onward}>
        {t.open} <On />
      </a>
    </>
  );
}

function Steps({ boat }: { boat: Boat }) {
  const steps = t.steps[kind.value];
  const file = kind.value === "ios" ? boat.profile : boat.certificate;
  const all = [
    <>
      <p>{steps.get}</p>
      <a class="button primary" href={file} download={kind.value !== "ios"}>
        {t.get[kind.value]}
      </a>
    </>,
    ...steps.after(boat.name).map((step) => <p key={step}>{step}</p>),
    <>
      <p>{t.compare}</p>
      <Fingerprint of={boat.fingerprint} />
    </>,
    <>
      <p>{t.back}</p>
      <button type="button" class="button" onClick={once(look)}>
        {t.look}
      </button>
    </>,
  ];
  return (
    <>
      <Elsewhere url={location.href} />
      {firefoxOnAndroid() && <OtherBrowser />}
      <p>{t.why}</p>
      <p>{t.after}</p>
      <Choices<Platform>
        label={t.kind}
        choices={kinds.map((value) => ({ value, name: t.kinds[value] }))}
        value={kind.value}
        onChoose={(value) => {
          kind.value = value;
        }}
      />
      <ol class="door-steps">
        {all.map((step, i) => (
          <li key={i}>
            {step}
            <p class="soft">{text.enrol.left(all.length - 1 - i + afterwards)}</p>
          </li>
        ))}
      </ol>
      <h2>{t.bound.title}</h2>
      <p>{t.bound.what(boat.name)}</p>
      <h2>{t.remove.title}</h2>
      <p>{t.remove.how[kind.value](boat.name)}</p>
      <h2>{t.rather.title}</h2>
      <p>{t.rather.what}</p>
      <a class="button" href={`${app}/`}>
        {t.rather.open}
      </a>
      <Address url={`${app}/`} />
    </>
  );
}

/** A browser that goes by authorities of its own: to another one, or what to switch on. */
const OtherBrowser = () => (
  <Notice actions={<Address url={location.origin} />}>
    {t.firefox.what} {t.firefox.how}
  </Notice>
);

async function start(): Promise<void> {
  document.title = text.app.name;
  boat.value = (await askWays())?.boat;
  await look();
  // Whoever comes back from the phone's settings has perhaps just done it.
  const again = () => {
    if (!document.hidden) look();
  };
  document.addEventListener("visibilitychange", again);
  addEventListener("focus", again);
  addEventListener("pageshow", again);
}

document.documentElement.lang = text.language;
render(<Door />, document.getElementById("app") as HTMLElement);
start();
