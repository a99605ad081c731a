/**
 * A rule to edit. A change that makes no sense is not taken, and says so where it was made; a date that cannot be read
 * says so too, and is kept.
 */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Problem } from "../../../base/desk/types/codec.gen";
import { type Bag, type Date as DayOfYear, limits } from "../../../base/desk/types/fish.gen";
import { Gone } from "../../../base/parts/gone";
import { Choices } from "../../../base/parts/input/choices";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { Pick } from "../../../base/parts/input/pick";
import { sayProblem } from "../../../base/parts/input/problem";
import { TextField } from "../../../base/parts/input/text-field";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { fromDesk, text } from "../../../base/text/text";
import { lawful } from "../../../base/units/show";
import { stepsFrom } from "../../../base/units/steps-from";
import { changed, judgeRule, putRule, removeRule } from "../../../state/rules/change";
import { isoDay, type OwnRule, type RuleSet, rules } from "../../../state/rules/rules";
import { Caution } from "./caution";
import { isAllYear, monthName } from "./rule-facts";

const t = text.fish.rules;
const of = limits.Rule;
const dates = ["validFrom", "validTo", "checkedOn"] as const;

export function RulePage({ id }: { id: string }) {
  const [setId = "", ruleId] = id.split(".");
  const set = rules.value.sets.find((one) => one.id === setId);
  const rule = set?.rules.find((one) => one.id === ruleId);
  if (!set || !rule) return <Gone back={href("fish", "rules")} />;
  return <Editing set={set} rule={rule} />;
}

function Editing({ set, rule }: { set: RuleSet; rule: OwnRule }) {
  const complaints = useSignal<Problem[]>([]);
  // What is kept that cannot be read is told at once.
  useEffect(() => {
    judgeRule(set, rule).then((found) => {
      complaints.value = found;
    });
  }, []);
  const take = async (patch: Partial<OwnRule>) => {
    complaints.value = await judgeRule(set, changed(rule, patch));
    const now = rules.value.sets.find(({ id }) => id === set.id)?.rules.find(({ id }) => id === rule.id);
    // A date is kept as it was typed: until it can be read, the rule is to be looked up.
    const stand = complaints.value.every(({ field }) => dates.some((date) => field === `rules[0].${date}`));
    if (stand && now) putRule(set.id, changed(now, patch));
  };
  const trouble = (name: string) => {
    const found = complaints.value.find(({ field }) => field === `rules[0].${name}`);
    return found && sayProblem(found, "ruler");
  };
  const remove = () => {
    removeRule(set, rule);
    goInstead("fish", "set", set.id);
  };
  const words = (key: "species" | "waters" | "gear" | "note" | "source", label: string, long = false) => (
    <TextField
      label={label}
      value={fromDesk(rule[key])}
      most={of[key].longest}
      long={long}
      onText={(typed) => take({ [key]: typed.trim() })}
      problem={trouble(key)}
    />
  );
  return (
    <Page title={fromDesk(rule.waters)} back={href("fish", "set", set.id)}>
      <Caution set={set} />
      <div class="form">
        {words("species", t.species)}
        {words("waters", t.watersOf)}
        <End name="min" rule={rule} label={t.min} usual={0.7112} take={take} problem={trouble("min")} />
        <End name="max" rule={rule} label={t.max} usual={0.7874} take={take} problem={trouble("max")} />
        <Season rule={rule} take={take} trouble={trouble} />
        <BagLimit per="person" label={t.bagPerson} rule={rule} take={take} />
        <BagLimit per="boat" label={t.bagBoat} rule={rule} take={take} />
        <YesNo
          label={t.noFishing}
          yes={t.allowed}
          no={t.forbidden}
          value={!rule.noFishing}
          onChoose={(allowed) => take({ noFishing: !allowed })}
        />
        <YesNo
          label={t.statesOwn}
          yes={t.yes}
          no={t.no}
          value={rule.statesOwn}
          onChoose={(statesOwn) => take({ statesOwn })}
        />
        {words("gear", t.gear, true)}
        {words("note", t.note, true)}
        {words("source", t.source, true)}
        {dates.map((date) => (
          <TextField
            key={date}
            label={t[date]}
            value={rule[date]}
            most={of[date].longest}
            onText={(typed) => take({ [date]: typed.trim() })}
            problem={trouble(date)}
          />
        ))}
      </div>
      <div class="button-row">
        <button type="button" class="button" onClick={once(() => take({ checkedOn: isoDay() }))}>
          {t.checkedToday}
        </button>
        <button type="button" class="button" onClick={once(remove)}>
          {t.removeRule}
        </button>
      </div>
    </Page>
  );
}

type Take = (patch: Partial<OwnRule>) => void;

interface YesNoProps {
  label: string;
  yes: string;
  no: string;
  value: boolean;
  onChoose: (value: boolean) => void;
}

const YesNo = ({ label, yes, no, value, onChoose }: YesNoProps) => (
  <Choices
    label={label}
    choices={[
      { value: "yes", name: yes },
      { value: "no", name: no },
    ]}
    value={value ? "yes" : "no"}
    onChoose={(chosen) => onChoose(chosen === "yes")}
  />
);

interface EndProps {
  name: "min" | "max";
  rule: OwnRule;
  label: string;
  /** Where stepping begins, m. */
  usual: number;
  take: Take;
  problem: string | undefined;
}

/** One end of the slot, and whether it belongs to it. */
function End({ name, rule, label, usual, take, problem }: EndProps) {
  const kept = `${name}Kept` as const;
  return (
    <>
      <LimitedStepper
        label={label}
        quantity="ruler"
        si={rule[name]}
        limits={of[name]}
        zero={t.noLimit}
        step={stepsFrom("ruler", usual)}
        onChange={(si) => take({ [name]: si })}
      />
      <p class="field-trouble" role="alert">
        {problem}
      </p>
      {rule[name] > 0 && (
        <YesNo
          label={t.just(lawful(rule[name]))}
          yes={t.kept}
          no={t.back}
          value={rule[kept]}
          onChoose={(may) => take({ [kept]: may })}
        />
      )}
    </>
  );
}

interface SeasonProps {
  rule: OwnRule;
  take: Take;
  trouble: (field: string) => string | undefined;
}

const months = Array.from({ length: 12 }, (_, i) => ({ id: String(i + 1), name: monthName(i + 1) }));

function Season({ rule, take, trouble }: SeasonProps) {
  const all = isAllYear(rule);
  const set = (key: "from" | "to", patch: Partial<DayOfYear>) => take({ [key]: { ...rule[key], ...patch } });
  return (
    <>
      <YesNo
        label={t.season}
        yes={t.allYear}
        no={t.part}
        value={all}
        onChoose={(year) =>
          take({ from: { month: year ? 1 : 4, day: 1 }, to: { month: year ? 12 : 11, day: year ? 31 : 30 } })
        }
      />
      {!all &&
        (["from", "to"] as const).map((key) => (
          <section key={key} class="form">
            <Pick
              label={`${t[key]}: ${t.month}`}
              options={months}
              value={String(rule[key].month)}
              onPick={(month) => set(key, { month: Number(month), day: 1 })}
            />
            <LimitedStepper
              label={`${t[key]}: ${t.day}`}
              quantity="number"
              si={rule[key].day}
              limits={limits.Date.day}
              onChange={(day) => set(key, { day: Math.round(day) })}
            />
            <p class="field-trouble" role="alert">
              {trouble(`${key}.day`)}
            </p>
          </section>
        ))}
    </>
  );
}

interface BagLimitProps {
  per: Bag["per"];
  label: string;
  rule: OwnRule;
  take: Take;
}

function BagLimit({ per, label, rule, take }: BagLimitProps) {
  const bag = rule.bags.find((one) => one.per === per);
  const others = rule.bags.filter((one) => one.per !== per);
  return (
    <>
      <YesNo
        label={label}
        yes={t.limited}
        no={t.unlimited}
        value={bag !== undefined}
        onChoose={(limited) => take({ bags: limited ? [...others, { count: 1, per }] : others })}
      />
      {bag && (
        <LimitedStepper
          label={t.counts[per]}
          quantity="number"
          si={bag.count}
          limits={limits.Bag.count}
          onChange={(count) => take({ bags: [...others, { count: Math.round(count), per }] })}
        />
      )}
    </>
  );
}
