/** What the boat's instruments say, what the app goes by, and the alarms. */
import { Typed } from "../../../base/parts/literal";
import { oldWords, Rings } from "../../../base/parts/live/live";
import { Page } from "../../../base/parts/page";
import { useSeconds } from "../../../base/parts/seconds";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import { text } from "../../../base/text/text";
import { about, amount, numeral } from "../../../base/units/show";
import { course } from "../../../base/units/when";
import { alarmSettings, kinds, setAlarms, sound } from "../../../state/alarms/alarms";
import {
  depthHeard,
  heard,
  hears,
  type Name,
  quantities,
  type Value,
  valueHeard,
} from "../../../state/instruments/heard";
import { parts, take, taken } from "../../../state/instruments/taken";
import { forgetWheel, wheelKept } from "../../../state/pace/wheel";

const t = text.instruments;

/** The page is not drawn anew with every word of the instruments, but only what tells them. */
export function InstrumentsPage() {
  return (
    <Page title={t.title} back={href("lines")}>
      {hears.value ? (
        <HeardNow />
      ) : (
        <p>
          <Typed>{t.none}</Typed>
        </p>
      )}
      <h2>{t.goBy}</h2>
      <div class="live-rows">
        {parts.map((part) => (
          <Toggle
            key={part}
            name={t.takes[part]}
            on={taken.value[part]}
            onTap={() => take({ [part]: !taken.value[part], asked: true })}
          />
        ))}
      </div>
      <Wheel />
      <h2>{text.alarms.title}</h2>
      <div class="live-rows">
        {(["sound", "voice", "speed"] as const).map((name) => (
          <Toggle
            key={name}
            name={text.alarms[name]}
            on={alarmSettings.value[name]}
            onTap={() => setAlarms({ [name]: !alarmSettings.value[name] })}
          />
        ))}
      </div>
      <p>{text.alarms.try}</p>
      <div class="live-rows">
        {kinds.map((kind) => (
          <button key={kind} type="button" class="button" onClick={once(() => sound(kind))}>
            {text.alarms.said[kind]}
          </button>
        ))}
      </div>
      <p class="soft">{text.alarms.locked}</p>
      <p class="soft">{t.care}</p>
    </Page>
  );
}

const Toggle = ({ name, on, onTap }: { name: string; on: boolean; onTap: () => void }) => (
  <button type="button" class="button" aria-pressed={on} onClick={once(onTap)}>
    {name}
  </button>
);

function HeardNow() {
  useSeconds();
  const depth = depthHeard.value;
  const echo = heard.value?.depth?.echo;
  return (
    <>
      <h2>{t.now}</h2>
      <ul class="prose">
        {depth && (
          <li>
            <b>{t.depthOf[depth.below]}</b> {amount("depth", depth.value)}
            <Of one={depth} />
            {depth.below !== "surface" && (
              <span class="soft">
                {" "}
                <Typed>{t.short}</Typed>
              </span>
            )}
            {echo !== undefined && <span class="soft"> {t.echo(amount("depth", echo))}</span>}
          </li>
        )}
        {quantities.map((name) => {
          const one = valueHeard(name);
          return (
            one && (
              <li key={name}>
                <b>{t.names[name]}</b> {written(name, one.value)}
                <Of one={one} />
              </li>
            )
          );
        })}
      </ul>
    </>
  );
}

/** Where it is from, how old, and what to doubt in it. */
const Of = ({ one }: { one: Value }) => (
  <span class="soft">
    {" "}
    <Rings /> {[oldWords(one.age), t.from(one.from)].filter(Boolean).join(", ")}
    {one.differs && ` · ${t.differs}`}
    {one.jumped && ` · ${t.jumped}`}
  </span>
);

const written = (name: Name, value: number): string => {
  if (name === "waterTemperature") return about("temperature", value, 1);
  return name === "heading" || name === "groundCourse" ? course(value) : about("speed", value, 0.1);
};

function Wheel() {
  const kept = wheelKept.signal.value;
  if (!kept) return null;
  const forget = () => {
    forgetWheel();
    offerUndo(t.forgotten, () => wheelKept.set(kept));
  };
  return (
    <>
      <p>{t.wheel(numeral(kept.factor, 0.01), about("speed", kept.zero, 0.01))}</p>
      <button type="button" class="button" onClick={once(forget)}>
        {t.forget}
      </button>
    </>
  );
}
