/** Which rules are used and where the boat is; and the sets to look at and change. */
import { useAnswer } from "../../../base/desk/ask";
import { desk } from "../../../base/desk/desk";
import { Gone } from "../../../base/parts/gone";
import { On, Plus } from "../../../base/parts/icons";
import { Choices } from "../../../base/parts/input/choices";
import { LoadFile } from "../../../base/parts/input/load-file";
import { TextField } from "../../../base/parts/input/text-field";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { go, goInstead, href } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import { fromDesk, text } from "../../../base/text/text";
import { addRule, addSet, changeSet, removeSet } from "../../../state/rules/change";
import {
  catchOf,
  fitting,
  fromBook,
  inForce,
  mostRules,
  type RuleSet,
  rules,
  speciesOf,
  watersNow,
  watersOf,
} from "../../../state/rules/rules";
import { fitsTrip, giveSet, isGiven, loadSets, mayGive, saveSet } from "../../../state/rules/share";
import { speciesName } from "../parts/names";
import { AgedSign, LookedUp } from "./aged";
import { Caution } from "./caution";
import { OfferedSets } from "./offered";
import { RuleFacts } from "./rule-facts";
import { StateSet } from "./state-set";

const t = text.fish.rules;

export function RulesPage() {
  const all = rules.value;
  const set = inForce(all);
  const waters = watersNow(all);
  return (
    <Page title={t.title} back={href("fish")}>
      <Caution set={set} />
      {!set && <p>{t.missing}</p>}
      {set && (
        <>
          <Choices
            label={t.inForce}
            choices={all.sets.map(({ id, name }) => ({ value: id, name: fromDesk(name) }))}
            value={set.id}
            onChoose={(id) => rules.set({ ...all, set: id })}
          />
          <Choices
            label={t.waters}
            choices={watersOf(set).map((value) => ({ value, name: fromDesk(value) }))}
            value={waters}
            onChoose={(chosen) => rules.set({ ...all, waters: chosen })}
          />
          {!waters && <p class="notice">{text.fish.judge.waters}</p>}
          {speciesOf(set, waters).map(
            (species) => waters && <Now key={species} {...{ set, waters, species }} />,
          )}
        </>
      )}
      <OfferedSets />
      <h2>{t.sets}</h2>
      <ul class="links">
        {all.sets.map(({ id, name, asOf, rules: of }) => (
          <li key={id}>
            <a class="button" href={href("fish", "set", id)}>
              <span>
                {fromDesk(name)}
                <small class="soft">{[t.rules(of.length), asOf].filter(Boolean).join(", ")}</small>
              </span>
              <On />
            </a>
          </li>
        ))}
      </ul>
      <StateSet />
      <button type="button" class="button" onClick={once(() => go("fish", "set", addSet()))}>
        <Plus /> {t.addSet}
      </button>
      <LoadFile name={text.fish.share.load} onFile={async (file) => loadSets(await file.text())} />
      <button type="button" class="button" onClick={once(asFirst)}>
        {text.parts.first.back}
      </button>
    </Page>
  );
}

/** What holds for a kind of fish in the waters chosen. */
function Now({ set, waters, species }: { set: RuleSet; waters: string; species: string }) {
  const asked = { species, length: fitting(set, species, waters), byPerson: 0, byBoat: 0, aboard: 1 };
  const { answer } = useAnswer("keep", catchOf(set, waters, asked));
  return (
    <section class="form">
      <h2>{speciesName(species)}</h2>
      {answer && <AgedSign aged={answer.aged} />}
      {answer?.statesOwn && <p class="notice">{text.fish.judge.statesOwn}</p>}
      {answer && <LookedUp aged={answer.aged} set={set} />}
      {set.rules
        .filter((rule) => rule.waters === waters && rule.species === species)
        .map((rule) => (
          <RuleFacts key={rule.id} rule={rule} />
        ))}
    </section>
  );
}

async function asFirst(): Promise<void> {
  const before = rules.value;
  const book = await desk.ask("rules", {});
  rules.set({ ...fromBook(book), waters: before.waters });
  offerUndo(text.parts.first.done, () => rules.set(before));
}

export function SetPage({ id }: { id: string }) {
  const set = rules.value.sets.find((one) => one.id === id);
  if (!set) return <Gone back={href("fish", "rules")} />;
  const gone = () => {
    removeSet(set);
    goInstead("fish", "rules");
  };
  return (
    <Page title={fromDesk(set.name)} back={href("fish", "rules")}>
      <Caution set={set} />
      <ul class="links">
        {set.rules.map((rule) => (
          <li key={rule.id}>
            <a class="button" href={href("fish", "rule", `${id}.${rule.id}`)}>
              <span>
                {speciesName(rule.species)}
                <small class="soft">{fromDesk(rule.waters)}</small>
              </span>
              <On />
            </a>
          </li>
        ))}
      </ul>
      {set.rules.length < mostRules && (
        <button
          type="button"
          class="button"
          onClick={once(() => go("fish", "rule", `${id}.${addRule(set)}`))}
        >
          <Plus /> {t.addRule}
        </button>
      )}
      <TextField
        label={t.setName}
        value={fromDesk(set.name)}
        most={60}
        onText={(name) => name && changeSet(id, { name })}
      />
      <TextField label={t.asOf} value={set.asOf} most={10} onText={(asOf) => changeSet(id, { asOf })} />
      <div class="button-row">
        <button type="button" class="button" onClick={once(() => saveSet(set))}>
          {text.fish.share.save}
        </button>
        {mayGive() && fitsTrip(set) && (
          <button type="button" class="button" disabled={isGiven(set)} onClick={once(() => giveSet(set))}>
            {isGiven(set) ? text.fish.share.given : text.fish.share.give}
          </button>
        )}
      </div>
      {rules.value.sets.length > 1 && (
        <button type="button" class="button" onClick={once(gone)}>
          {t.removeSet}
        </button>
      )}
    </Page>
  );
}
