/** The float plan: typed here, left with somebody ashore as text or on paper. */
import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import { On } from "../../base/parts/icons";
import { TextField } from "../../base/parts/input/text-field";
import { Page } from "../../base/parts/page";
import { handOver } from "../../base/phone/hand-over";
import { once } from "../../base/shell/guard";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { heads } from "../../state/crew/aboard";
import { boat } from "../../state/crew/boat";
import {
  type Filled,
  type FloatPlan,
  floatPlan,
  floatPlanAt,
  floatPlanText,
  fromPicker,
  tooEarly,
  toPicker,
} from "../../state/crew/floatplan";
import { groundOfTrip, peopleAboard, tripRecords } from "../../state/crew/trip";
import { useRunningTrip } from "../../state/crew/use-trip";
import { number } from "../../state/entry/fold";
import { running } from "../../state/log/log";
import { Paper, PrintButton } from "./print";
import { HowManyAboard } from "./radio-words";

const t = text.crew.floatplan;

const set = (patch: Partial<FloatPlan>) =>
  floatPlan.set({ ...floatPlanAt(Date.now()), ...patch, at: Date.now() });

/** What is typed here, and where nothing is, what trip and boat say. */
function filled(): Filled {
  const own = floatPlanAt(Date.now());
  const aboard = peopleAboard();
  const trip = tripRecords("trip")?.[0];
  const people = own.people || aboard.join(", ");
  return {
    ...own,
    boat: boat.value,
    people,
    ground: own.ground || groundOfTrip() || boat.value.ground,
    leaving: own.leaving || (running.value?.opened ?? 0),
    count: heads.value.aboard || people.split(",").filter((name) => name.trim()).length || boat.value.people,
    depth: (trip && number(trip, "targetDepth")) ?? 0,
  };
}

export function FloatPlanPage() {
  const ready = useRunningTrip();
  const now = filled();
  const said = floatPlanText(now);
  return (
    <Page title={t.title} back={href("crew")}>
      <p>{t.what}</p>
      {ready && <Form now={now} />}
      <a class="button" href={href("crew", "boat")}>
        {text.crew.boatTitle}: {boat.value.name || text.crew.boat.unset} <On />
      </a>
      <pre class="floatplan-text">{said}</pre>
      <HandOver said={said} />
      <p>{t.after}</p>
      <p class="soft">{t.source}</p>
      <Paper title={t.title}>
        {said.split("\n\n").map((part) => (
          <pre key={part} class="floatplan-text">
            {part}
          </pre>
        ))}
      </Paper>
    </Page>
  );
}

function Form({ now }: { now: Filled }) {
  const field = (name: "from" | "ground" | "people" | "car" | "rescue" | "more") => ({
    value: now[name],
    onText: (typed: string) => set({ [name]: typed.trim() }),
  });
  return (
    <div class="form">
      <HowManyAboard />
      <TextField label={t.people} hint={t.peopleHint} {...field("people")} />
      <TextField label={t.from} {...field("from")} />
      <TextField label={t.ground} {...field("ground")} />
      <Time label={t.leaving} ms={now.leaving} onTime={(leaving) => set({ leaving })} />
      <Time label={t.back} ms={now.back} onTime={(back) => set({ back })} />
      <Time
        label={t.alarm}
        ms={now.alarm}
        problem={tooEarly(now) ? t.order : undefined}
        onTime={(alarm) => set({ alarm })}
      />
      <TextField label={t.rescue} hint={t.rescueHint} {...field("rescue")} />
      <TextField label={t.car} {...field("car")} />
      <TextField label={t.more} long {...field("more")} />
    </div>
  );
}

interface TimeProps {
  label: string;
  ms: number;
  problem?: string | undefined;
  onTime: (ms: number) => void;
}

/** The phone's own picker of date and time. */
function Time({ label, ms, problem, onTime }: TimeProps) {
  const id = useId();
  return (
    <div class="pick">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="datetime-local"
        value={toPicker(ms)}
        aria-describedby={`${id}-more`}
        onChange={(event) => onTime(fromPicker(event.currentTarget.value))}
      />
      <p id={`${id}-more`} class={problem ? "field-trouble" : ""} role={problem ? "alert" : undefined}>
        {problem}
      </p>
    </div>
  );
}

function HandOver({ said }: { said: string }) {
  const came = useSignal("");
  const share = () => {
    // Thought better of, or refused: the other ways are beside it.
    navigator.share({ title: t.title, text: said }).catch(() => undefined);
  };
  const copy = async () => {
    const copied = await navigator.clipboard?.writeText(said).then(
      () => true,
      () => false,
    );
    came.value = copied ? t.copied : t.notCopied;
  };
  const save = async () => {
    if (await handOver(t.file, said, "text/plain")) came.value = t.saved;
  };
  return (
    <>
      <div class="button-row">
        {"share" in navigator && (
          <button type="button" class="button primary" onClick={once(share)}>
            {t.share}
          </button>
        )}
        <button type="button" class="button" onClick={once(copy)}>
          {t.copy}
        </button>
        <button type="button" class="button" onClick={once(save)}>
          {t.save}
        </button>
        <PrintButton name={text.crew.print} />
      </div>
      <p role="status">{came}</p>
    </>
  );
}
