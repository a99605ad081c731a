/** May we keep it? By the rules that are set here; without one it goes back. */

import { useAnswer } from "../../../base/desk/ask";
import type { Judgement, Reason } from "../../../base/desk/types/fish.gen";
import { limits } from "../../../base/desk/types/fish.gen";
import { Check, Cross, Question, Warning } from "../../../base/parts/icons";
import { Choices } from "../../../base/parts/input/choices";
import { saySomewhere } from "../../../base/parts/input/problem";
import { once } from "../../../base/shell/guard";
import { goInstead, href, route } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import { fromDesk, text } from "../../../base/text/text";
import { about, lawful } from "../../../base/units/show";
import { countOf, type InBag } from "../../../state/fish/count";
import { change, type Fish } from "../../../state/fish/fishes";
import { tell } from "../../../state/fish/noting";
import { anglers, bagNow, counted, fishing, keepers } from "../../../state/fish/people";
import { isMine } from "../../../state/log/names";
import {
  catchOf,
  inForce,
  type RuleSet,
  rules,
  today,
  watersNow,
  watersOf,
} from "../../../state/rules/rules";
import { HowMany } from "../parts/how-many";
import { fishName, speciesName } from "../parts/names";
import { agedWords, LookedUp } from "../rules/aged";
import { Caution } from "../rules/caution";
import { dayWords, RuleFacts } from "../rules/rule-facts";
import { Deciding, FootButton, OutOfWater, ofFish, StepPage, toStep } from "./step";

const t = text.fish.judge;

export const JudgePage = ofFish(({ fish }) => {
  const set = inForce();
  const waters = watersNow();
  if (!set || !waters || fish.length === 0) return <WatersFirst fish={fish} set={set} />;
  return <Judged fish={fish} set={set} waters={waters} />;
});

/** Nothing can be judged without knowing where. */
function WatersFirst({ fish, set }: { fish: Fish; set: RuleSet | undefined }) {
  return (
    <StepPage
      fish={fish}
      step="judge"
      foot={
        <>
          <FootButton onTap={() => toStep(fish.id, "measure")}>{text.parts.back}</FootButton>
          <FootButton decides onTap={() => letGo(fish)}>
            {t.letGo}
          </FootButton>
        </>
      }
    >
      <Choices
        label={t.waters}
        choices={watersOf(set).map((value) => ({ value, name: fromDesk(value) }))}
        value=""
        onChoose={(waters) => rules.set({ ...rules.value, waters })}
      />
      {!set && <p>{text.fish.rules.missing}</p>}
      <OtherRules />
      <Caution set={set} />
    </StepPage>
  );
}

const OtherRules = () => (
  <a class="button" href={href("fish", "rules")}>
    {text.fish.rules.title}
  </a>
);

interface JudgedProps {
  fish: Fish;
  set: RuleSet;
  waters: string;
}

function Judged({ fish, set, waters }: JudgedProps) {
  const people = keepers();
  const [only = ""] = people;
  const alone = people.length === 1;
  const bag = bagNow(fish);
  const counts = counted(countOf(bag, fish.species, only), only);
  // Whose it is is asked only where the fish itself may be kept.
  const { answer, problem } = useAnswer(
    "keep",
    catchOf(set, waters, {
      species: fish.species,
      length: fish.length,
      // While nobody has said how many fish, whose fish there are is not known of one alone.
      byPerson: alone && fishing() > 0 ? counts.byPerson : 0,
      byBoat: counts.byBoat,
      aboard: fishing(),
    }),
  );
  const may = answer?.verdict === "keep";
  const old = answer?.verdict === "look it up";
  const byMaster = answer?.verdict === "unknown" || (old && answer?.byRules === "keep");
  return (
    <StepPage
      fish={fish}
      step="judge"
      foot={
        <>
          <FootButton onTap={() => toStep(fish.id, "measure")}>{text.parts.back}</FootButton>
          <FootButton decides primary={!may} onTap={() => letGo(fish)}>
            {t.letGo}
          </FootButton>
          {may && alone && (
            <FootButton decides primary onTap={() => keep(fish, only)}>
              {t.keep}
            </FootButton>
          )}
        </>
      }
    >
      {problem && <p role="alert">{saySomewhere(problem)}</p>}
      {answer && <Verdict of={answer} fish={fish} waters={waters} />}
      {answer && old && <LookedUp aged={answer.aged} set={set} />}
      {answer?.askHowMany && <HowMany />}
      <Caution set={set} short />
      {answer?.close && (
        <div class="notice">
          <p>{t.close(about("ruler", limits.Catch.ruler.default, 0.1))}</p>
          <div class="notice-actions">
            <button type="button" class="button" onClick={once(() => toStep(fish.id, "measure"))}>
              {t.again}
            </button>
          </div>
        </div>
      )}
      {(may || byMaster) && !alone && (
        <Whose {...{ fish, set, waters, people, bag }} title={may ? t.whose : `${t.master}. ${t.whose}`} />
      )}
      {byMaster && alone && <Deciding onTap={() => keep(fish, only)}>{t.master}</Deciding>}
      <OutOfWater fish={fish} />
      {answer?.rules.map((i) => {
        const rule = set.rules[i];
        return (
          rule && (
            <section key={rule.id}>
              <RuleFacts rule={rule} />
            </section>
          )
        );
      })}
      <p class="soft">{t.today(dayWords(today()))}</p>
      <OtherRules />
    </StepPage>
  );
}

const marks = {
  keep: Check,
  release: Cross,
  unknown: Question,
  "look it up": Warning,
  "how many fish": Question,
};

const looks = {
  keep: "keep",
  release: "release",
  unknown: "unknown",
  "look it up": "look-up",
  "how many fish": "ask",
};

function Verdict({ of, fish, waters }: { of: Judgement; fish: Fish; waters: string }) {
  const Mark = marks[of.verdict];
  const old = of.verdict === "look it up";
  return (
    <section class={`fish-verdict ${looks[of.verdict]}`} role="status">
      <p class="fish-verdict-word">
        <Mark /> {old ? agedWords(of.aged) : t.verdicts[of.verdict]}
      </p>
      {old && <p>{t.byOldRule(t.verdicts[of.byRules])}</p>}
      {of.verdict === "unknown" ? (
        <p>{t.unknownWhy(speciesName(fish.species), fromDesk(waters))}</p>
      ) : (
        of.reasons.map((reason, i) => <p key={i}>{reasonWords(reason)}</p>)
      )}
      {of.statesOwn && <p class="fish-verdict-more">{t.statesOwn}</p>}
    </section>
  );
}

const reasonWords = ({ why, limit, by, included, opens }: Reason): string =>
  t.reasons[why](lawful(limit), by > 0 ? lawful(by) : "", opens ? dayWords(opens) : "", included);

interface WhoseProps {
  fish: Fish;
  set: RuleSet;
  waters: string;
  people: string[];
  bag: InBag[];
  title: string;
}

/** One tap keeps it for somebody, as long as there is room in that bag. */
function Whose({ people, title, ...rest }: WhoseProps) {
  return (
    <section class="form">
      <h2>{title}</h2>
      <ul class="links">
        {people.map((person) => (
          <li key={person}>
            <ForPerson person={person} {...rest} />
          </li>
        ))}
      </ul>
      <p class="soft">
        {t.whoseWhy} {text.fish.practice}
      </p>
    </section>
  );
}

interface ForPersonProps extends Omit<WhoseProps, "people" | "title"> {
  person: string;
}

function ForPerson({ fish, set, waters, bag, person }: ForPersonProps) {
  const { species, length } = fish;
  const { answer } = useAnswer(
    "keep",
    catchOf(set, waters, {
      species,
      length,
      ...counted(countOf(bag, species, person), person),
      aboard: fishing(),
    }),
  );
  // Without a rule there is no bag either.
  const ruled = answer?.byRules !== "unknown";
  const may = answer && (!ruled || answer.byRules === "keep");
  return (
    <Deciding primary={isMine(person)} off={!may} onTap={() => keep(fish, person)}>
      <span>
        {person || t.unnamed}
        {isMine(person) && ` (${t.me})`}
        <small class="soft">{answer && ruled && (may ? t.more(answer.moreByPerson) : t.full)}</small>
      </span>
      {answer && !may && <Warning />}
    </Deciding>
  );
}

function keep(fish: Fish, person: string): void {
  decide(fish, { fate: "kept", person }, t.kept(fishName(fish)));
  goInstead("fish", "bleed", fish.id);
}

/** It goes back, whatever the rules say. */
export function letGo(fish: Fish): void {
  const [only = "", ...others] = anglers();
  decide(fish, { fate: "released", person: others.length > 0 ? "" : only }, t.released(fishName(fish)));
  goInstead("fish", "release", fish.id);
}

function decide(fish: Fish, fate: Pick<Fish, "fate" | "person">, said: string): void {
  const { id, species, length, step } = fish;
  const waters = watersNow();
  const told = { fish: species, ...(length > 0 && { length }), ...(waters && { waters }) };
  change(id, { ...fate, step: fate.fate === "kept" ? "bleed" : "release" });
  tell(id, { ...told, fate: fate.fate, ...(fate.person && { person: fate.person }) });
  offerUndo(said, () => {
    change(id, { fate: "", person: "" });
    tell(id, { fate: null, person: null, ...(waters && { waters: null }) });
    change(id, { step });
    // Back to where it was decided, unless one has gone elsewhere.
    if (route.value[2] === id) goInstead("fish", step, id);
  });
}
