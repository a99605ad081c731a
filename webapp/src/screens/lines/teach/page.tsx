/** What somebody knows of the lines already: settings typed in, three in under a minute, and what they bring. */
import { useSignal } from "@preact/signals";
import { useAnswer } from "../../../base/desk/ask";
import { limits } from "../../../base/desk/types/towline.gen";
import { Check, Cross, On, Question } from "../../../base/parts/icons";
import { Choices } from "../../../base/parts/input/choices";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { Pick } from "../../../base/parts/input/pick";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import { text } from "../../../base/text/text";
import { inSi } from "../../../base/units/units";
import { unteach } from "../../../state/calibrate/share";
import type { Taught } from "../../../state/calibrate/taught";
import { type Setting, setTeaching, sures, teaching, whens } from "../../../state/calibrate/teaching";
import { judgedTaught, knownBy, taughtHere, taughtInLog } from "../../../state/calibrate/touches";
import { mayChange } from "../../../state/crew/role";
import type { Folded } from "../../../state/entry/fold";
import { gear, pick } from "../../../state/gear/gear";
import { placeName, rigInColour } from "../../../state/gear/names";
import { recordHref } from "../../../state/log/refer";
import { recordWords } from "../../../state/notes/words";
import { doubtNow } from "../../../state/spread/doubt";
import { bareRod, bottomFor, rodFor, seaFor } from "../../../state/spread/request";
import { selected } from "../../../state/spread/solved";
import { type Rod, type Spread, spread } from "../../../state/spread/spread";
import { properties } from "../../../state/spread/water";
import { Bands } from "../calibrate/bands";
import { howManyCount, plainVerdict } from "../calibrate/words";
import { teachUndoably } from "./observed";
import { notedWords, taughtWords } from "./words";

const t = text.teach;

/** One standard deviation of the depth told, m: judgements. */
const doubts = { sure: 0.5, quite: 1, roughly: 2 } as const;
/** How long ago, ms, near enough: wire ages. */
const day = 86_400_000;
const ages = { now: 0, season: 30 * day, before: 700 * day } as const;

export function TeachPage() {
  const rod = selected.value;
  if (!rod) return <Page title={t.title} back={href("lines")} children={text.lines.firstStart} />;
  return <Form rod={rod} now={spread.value} />;
}

function Form({ rod, now }: { rod: Rod; now: Spread }) {
  const { setting } = teaching();
  const begun: Setting = {
    rod: rod.id,
    place: rod.place,
    rig: rod.rig,
    lineOut: rod.lineOut,
    drail: rod.drail,
    sinker: rod.sinker,
    speed: now.speed,
    depth: now.bottom,
    sure: "quite",
    when: "season",
  };
  const draft = useSignal(setting?.rod === rod.id ? setting : begun);
  const d = draft.value;
  const set = (patch: Partial<Setting>) => {
    draft.value = { ...draft.value, ...patch };
    setTeaching({ setting: draft.value });
  };
  const g = gear.value;
  const { dropper } = pick(g.rigs, d.rig);
  const add = () => {
    const { rod: _, depth, sure, when, ...rest } = d;
    const one: Omit<Taught, "id" | "rigged"> = {
      ...rest,
      kind: "known",
      at: Date.now() - ages[when],
      reading: depth,
      doubt: doubts[sure],
      speedDoubt: doubtNow.value.speed,
    };
    teachUndoably(one);
    setTeaching({ setting: null });
  };
  return (
    <Page
      title={t.title}
      back={href("lines")}
      deck={
        <button type="button" class="button primary" onClick={once(add)}>
          <Check /> {t.add}
        </button>
      }
    >
      <p>{t.what}</p>
      <Brings rod={rod} now={now} />
      <div class="form">
        <LimitedStepper
          label={t.lineOut}
          quantity="line"
          si={d.lineOut}
          limits={limits.Rod.lineOut}
          onChange={(lineOut) => set({ lineOut })}
        />
        {dropper && (
          <LimitedStepper
            label={t.sinker}
            quantity="weight"
            si={d.sinker || dropper.sinker}
            limits={limits.Dropper.sinker}
            onChange={(sinker) => set({ sinker })}
          />
        )}
        <LimitedStepper
          label={t.drail}
          quantity="weight"
          si={d.drail}
          limits={{ min: 0, max: limits.Drail.mass.max }}
          step={(mass, by) => Math.max(0, mass + by * 4 * inSi.oz)}
          zero={text.lines.none}
          onChange={(drail) => set({ drail })}
        />
        <LimitedStepper
          label={t.speed}
          quantity="speed"
          si={d.speed}
          limits={limits.Sea.speed}
          onChange={(speed) => set({ speed })}
        />
        <LimitedStepper
          label={t.ticks}
          quantity="depth"
          si={d.depth}
          limits={limits.Sea.bottom}
          onChange={(depth) => set({ depth })}
        />
        <Choices
          label={t.sure}
          choices={sures.map((value) => ({ value, name: t.sures[value] }))}
          value={d.sure}
          onChoose={(sure) => set({ sure })}
        />
        <Choices
          label={t.when}
          choices={whens.map((value) => ({ value, name: t.whens[value] }))}
          value={d.when}
          onChoose={(when) => set({ when })}
        />
        <Pick
          label={t.rig}
          options={g.rigs.map((r) => ({ id: r.id, name: rigInColour(r, g) }))}
          value={d.rig}
          onPick={(rig) => set({ rig, sinker: 0 })}
        />
        <Pick
          label={t.place}
          options={g.places.map((p) => ({ id: p.id, name: placeName(p) }))}
          value={d.place}
          onPick={(place) => set({ place })}
        />
      </div>
      <All />
      <nav class="asks" aria-label={t.more}>
        <a class="button" href={href("lines", "sight", rod.id)}>
          {t.sight.title} <On />
        </a>
        <a class="button" href={href("lines", "pull", rod.id)}>
          {t.pull.title} <On />
        </a>
        <a class="button" href={href("lines", "touches")}>
          {text.calibrate.title} <On />
        </a>
      </nav>
      <p class="soft">{mayChange() ? t.goes : t.kept}</p>
    </Page>
  );
}

/** The depth of the rod in hand before anything was learned, and now. */
function Brings({ rod, now }: { rod: Rod; now: Spread }) {
  const g = gear.value;
  const { answer } = useAnswer("spread", {
    sea: seaFor(now, properties.value),
    wanted: now.wanted,
    doubt: doubtNow.value,
    ...bottomFor(now),
    rods: [bareRod(g, rod), rodFor(g, rod)],
  });
  const [before, after] = answer?.rods ?? [];
  if (!before || !after || before.trouble || after.trouble) return null;
  return (
    <section class="how-sure">
      <h2>{t.band(placeName(pick(g.places, rod.place)))}</h2>
      <Bands
        rows={[
          { name: t.before, band: before.depth },
          { name: t.now, band: after.depth },
        ]}
        bottom={now.bottom}
        legend={false}
      />
    </section>
  );
}

interface Known {
  /** By which it was judged, and by which it is known here and in the log. */
  id: string;
  known: string;
  words: string;
  record?: Folded;
}

const everything = (): Known[] => [
  ...taughtHere.value.map((one) => ({ id: one.id, known: one.id, words: taughtWords(one) })),
  ...(taughtInLog.value ?? []).map(({ id, record }) => ({
    id,
    known: knownBy(record),
    words: notedWords(record) ?? recordWords(record),
    record,
  })),
];

function All() {
  const all = everything();
  if (all.length === 0) return null;
  const forget = ({ known, words }: Known) => offerUndo(t.gone(words), unteach(known));
  return (
    <>
      <h2>{t.all}</h2>
      <ul class="links">
        {all.map((one) => {
          const verdict = judgedTaught.value.get(one.id)?.verdict;
          const Mark = verdict === "agrees" ? Check : Question;
          return (
            <li key={one.id} class="taught">
              <span>
                {one.record ? <a href={recordHref(one.record)}>{one.words}</a> : one.words}
                <small class="soft">
                  <Mark />{" "}
                  {verdict === "contradicts"
                    ? text.calibrate.contradicts
                    : verdict && plainVerdict(verdict, howManyCount())}
                </small>
              </span>
              {(!one.record || mayChange()) && (
                <button
                  type="button"
                  class="button"
                  aria-label={`${t.forget}: ${one.words}`}
                  onClick={once(() => forget(one))}
                >
                  <Cross />
                </button>
              )}
            </li>
          );
        })}
      </ul>
    </>
  );
}
