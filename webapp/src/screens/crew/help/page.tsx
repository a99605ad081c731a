/** A page for one sort of emergency, and the list of all of them. */
import { useEffect, useRef } from "preact/hooks";
import { Gone } from "../../../base/parts/gone";
import { On } from "../../../base/parts/icons";
import { Page } from "../../../base/parts/page";
import { watchPosition } from "../../../base/position/position";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import type { HelpName } from "../../../base/text/en/help";
import { text } from "../../../base/text/text";
import { clock } from "../../../base/units/when";
import { tripRecords } from "../../../state/crew/trip";
import { useRunningTrip } from "../../../state/crew/use-trip";
import { words } from "../../../state/entry/fold";
import { strike } from "../../../state/log/saying/say";
import { create } from "../../../state/notes/create";
import { foremost } from "../../../state/overboard/overboard";
import { HelpFrame } from "./frame";
import { OverboardPage } from "./overboard";
import { Radio } from "./radio";
import { Steps } from "./steps";

const t = text.help;

const names = Object.keys(t.pages) as HelpName[];

export const HelpList = () => (
  <Page title={t.title} back={href("crew")}>
    <ul class="links">
      <li>
        <a class="button help-link" href={href("overboard")}>
          {t.overboard.title} <On />
        </a>
      </li>
      {names.map((name) => (
        <li key={name}>
          <a class="button help-link" href={href("help", name)}>
            {t.pages[name].title} <On />
          </a>
        </li>
      ))}
      <li>
        <a class="button help-link" href={href("crew", "radio")}>
          {text.crew.mayday} <On />
        </a>
      </li>
    </ul>
    <p class="soft">{t.defer}</p>
  </Page>
);

export function HelpPage({ id }: { id: string }) {
  useRunningTrip();
  useEffect(watchPosition, []);
  const radio = useRef<HTMLHeadingElement>(null);
  // Its page has an address of its own.
  if (id === "overboard") return <OverboardPage id="" />;
  if (!names.includes(id as HelpName)) return <Gone back={href("help")} />;
  const { title, steps } = t.pages[id as HelpName];
  return (
    <HelpFrame title={title} back={href("help")} words={steps.map(({ what }) => what)} radio={radio}>
      <Steps of={steps} />
      {id === "bleeding" && <Tourniquet />}
      <Radio lost={id === "alone" ? foremost.value : undefined} heading={radio} />
    </HelpFrame>
  );
}

/** The time it was put on is what the doctor asks first. */
function Tourniquet() {
  const put = () => {
    const record = create("note", { text: t.tourniquet.text });
    offerUndo(t.tourniquet.noted(clock(Date.now())), () => strike(record));
  };
  const on = tripRecords("note")?.filter(
    (record) => !record.struck && words(record, "text") === t.tourniquet.text,
  );
  return (
    <>
      {on?.map((record) => (
        <p key={record.id} class="large-words" role="timer">
          {t.tourniquet.noted(clock(record.entries[0]?.at ?? 0))}
        </p>
      ))}
      <button type="button" class="button primary" onClick={once(put)}>
        {t.tourniquet.note}
      </button>
    </>
  );
}
