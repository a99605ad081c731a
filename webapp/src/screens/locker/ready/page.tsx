/** Ready for sea: each thing the phone needs, how it stands, and the one thing to do. */
import type { ComponentType } from "preact";
import { useEffect } from "preact/hooks";
import { Cross, On, Check as Tick, Warning } from "../../../base/parts/icons";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import {
  type Check,
  checks,
  lookAtPosition,
  lookAtStorage,
  lookAtTables,
  type Standing,
} from "../../../state/ready/checks";
import { look } from "../../../state/update/offline";

const marks: { [S in Standing]: ComponentType } = { good: Tick, todo: Warning, never: Cross };

/** With an id one is on the way that begins at the placard. */
export function ReadyPage({ id }: { id: string }) {
  useEffect(() => {
    lookAtStorage();
    lookAtPosition();
    lookAtTables();
    look();
    // They come while one looks on.
    const timer = setInterval(lookAtTables, 3000);
    return () => clearInterval(timer);
  }, []);
  const open = checks.value.filter((check) => check.standing !== "good");
  const done = checks.value.filter((check) => check.standing === "good");
  return (
    <Page title={text.ready.title} back={href("locker")}>
      <p class="large-words" role="status">
        {text.ready.summary(open.length)}
      </p>
      {id && <p>{text.enrol.left(1)}</p>}
      <a class="button" href={href("crew", "briefing", "1")}>
        {text.enrol.on.briefing} <On />
      </a>
      <ol class="checks">
        {[...open, ...done].map((check) => (
          <OneCheck key={check.name} check={check} />
        ))}
      </ol>
      <h2>{text.ready.try.title}</h2>
      <p>{text.ready.try.how}</p>
    </Page>
  );
}

function OneCheck({ check }: { check: Check }) {
  const Mark = marks[check.standing];
  return (
    <li class={`check ${check.standing}`}>
      <h2>{check.name}</h2>
      <span class="verdict">
        <Mark /> {text.ready.standings[check.standing]}
      </span>
      <p>{check.say}</p>
      {check.act && (
        <button type="button" class="button" onClick={once(check.act.tap)}>
          {check.act.name}
        </button>
      )}
    </li>
  );
}
