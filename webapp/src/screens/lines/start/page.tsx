/** What a person needs who has never seen the app: what the numbers mean, and what to set first. */
import { useEffect } from "preact/hooks";
import { On } from "../../../base/parts/icons";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { go, href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { noteCautions } from "../../../base/units/settings";
import { inTen } from "../../../base/units/show";
import { mayChange } from "../../../state/crew/role";
import { you } from "../../../state/log/log";
import { answerFor, selected } from "../../../state/spread/solved";
import { readouts } from "../rods";
import { depthParts } from "../words";

const t = text.start;

export function StartPage() {
  // Who has been here has seen them, whichever way one leaves.
  useEffect(() => noteCautions, []);
  const guest = you.value !== undefined && !mayChange();
  return (
    <Page title={t.title} back={href("lines")}>
      <Numbers />
      {guest ? <ForGuest /> : <ForSkipper />}
      <ul class="prose">
        {text.about.cautions.slice(0, 3).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <a class="button" href={href("locker", "cautions")}>
        {text.cautions.title} <On />
      </a>
      <button type="button" class="button primary" onClick={once(() => go("lines"))}>
        {t.done}
      </button>
    </Page>
  );
}

/** The numbers of the rod in hand, said one by one. */
function Numbers() {
  const rod = selected.value;
  const answer = rod && answerFor(readouts.value, rod);
  if (!answer || answer.trouble) return null;
  const { number, unit } = depthParts(answer);
  const [deep = "", off = ""] = number.split("±");
  return (
    <section class="form">
      <h2>{t.numbers}</h2>
      <dl class="legend">
        <dt class="readout">
          {deep.trim()} <small>{unit}</small>
        </dt>
        <dd>{t.depth}</dd>
        <dt class="readout">
          ± {off.trim()} <small>{unit}</small>
        </dt>
        <dd>{t.doubt}</dd>
        <dt class="readout">
          <small>{inTen(answer.odds.inBand)}</small>
        </dt>
        <dd>{t.odds}</dd>
      </dl>
      <p>{t.green}</p>
    </section>
  );
}

const ForSkipper = () => (
  <section class="form">
    <h2>{t.settings}</h2>
    <ul class="links">
      <To path={["gear", "rigs"]} name={t.rigs} />
      <To path={["gear", "spoons"]} name={t.spoons} />
      <To path={["lines", "drails"]} name={t.drails} />
    </ul>
    <h2>{t.next}</h2>
    <p>{t.teach}</p>
    <ul class="links">
      <To path={["lines", "teach"]} name={text.teach.ask} />
    </ul>
  </section>
);

const ForGuest = () => (
  <section class="form">
    <h2>{t.guest}</h2>
    <p>{t.guestWhat}</p>
    <ul class="links">
      <To path={["crew", "briefing", "1"]} name={t.briefing} />
    </ul>
  </section>
);

const To = ({ path, name }: { path: string[]; name: string }) => (
  <li>
    <a class="button" href={href(...path)}>
      <span>{name}</span> <On />
    </a>
  </li>
);
