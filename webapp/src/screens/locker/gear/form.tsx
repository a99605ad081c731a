/** One piece of gear to edit. Every change that makes sense is kept at once; there is nothing to save. */
import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import type { Problem } from "../../../base/desk/types/codec.gen";
import { Choices } from "../../../base/parts/input/choices";
import { Pick } from "../../../base/parts/input/pick";
import { sayProblem } from "../../../base/parts/input/problem";
import { Stepper } from "../../../base/parts/input/stepper";
import { WordChoice } from "../../../base/parts/input/word-choice";
import { fromDesk, text } from "../../../base/text/text";
import type { Quantity } from "../../../base/units/units";
import { withItem } from "../../../state/gear/change";
import { type Gear, gear, type Kind, type LineGear, type Rig, type Spoon } from "../../../state/gear/gear";
import { kinds, type NumberOf } from "../../../state/gear/kinds";
import { isCopy, nylonName, spoonInColour, wireName } from "../../../state/gear/names";
import { choicesOf, fieldName } from "../../../state/notes/words";
import { judge } from "../../../state/spread/judge";

type Any = Gear[Kind][number];

export function GearForm({ kind, item }: { kind: Kind; item: Any }) {
  const complaint = useSignal<Problem | undefined>(undefined);
  const take = async (patch: object) => {
    const changed = withItem(gear.value, kind, item.id, patch);
    complaint.value = await judge(changed, kind, item.id);
    if (!complaint.value) gear.set(withItem(gear.value, kind, item.id, patch));
  };
  const trouble = (field: string | undefined, quantity: Quantity) =>
    field && complaint.value?.field === `rods[0].${field}`
      ? sayProblem(complaint.value, quantity)
      : undefined;
  const numbers = kinds[kind].numbers as NumberOf<Any>[];
  return (
    <div class="form">
      <NameField
        name={isCopy(item.name) ? "" : fromDesk(item.name)}
        onName={(name) => take({ name, source: item.source })}
      />
      {kind === "spoons" && (
        <WordChoice
          label={fieldName("colour")}
          choices={[{ value: "", name: text.notes.unset }, ...choicesOf("colour")]}
          said={(item as Spoon).colour}
          others
          onValue={(colour) => take({ colour, source: item.source })}
        />
      )}
      {kind === "rigs" && <RigParts rig={item as Rig} take={take} trouble={trouble} />}
      {numbers.map(({ key, quantity, field }) => (
        <div key={key} class="form-number">
          <Stepper
            label={text.gear.numbers[key as keyof typeof text.gear.numbers]}
            quantity={quantity}
            si={item[key] as unknown as number}
            onChange={(si) => take({ [key]: field ? si : Math.max(si, 0) })}
            problem={trouble(field, quantity)}
          />
          {key in text.gear.hints && (
            <p class="soft">{text.gear.hints[key as keyof typeof text.gear.hints]}</p>
          )}
        </div>
      ))}
    </div>
  );
}

function NameField({ name, onName }: { name: string; onName: (name: string) => void }) {
  const id = useId();
  return (
    <div class="pick">
      <label for={id}>{text.gear.name}</label>
      <input
        id={id}
        value={name}
        maxLength={60}
        placeholder={text.gear.byNumbers}
        autocomplete="off"
        enterkeyhint="done"
        onInput={(event) => onName(event.currentTarget.value)}
        onKeyDown={(event) => event.key === "Enter" && event.currentTarget.blur()}
      />
    </div>
  );
}

interface RigPartsProps {
  rig: Rig;
  take: (patch: object) => void;
  trouble: (field: string, quantity: Quantity) => string | undefined;
}

/** What a rig is made of, chosen by name; and its three-way, if it has one. */
function RigParts({ rig, take, trouble }: RigPartsProps) {
  const g = gear.value;
  const t = text.gear.rigParts;
  const lines = (items: LineGear[], name: (l: LineGear) => string) =>
    items.map((l) => ({ id: l.id, name: name(l) }));
  const nylons = lines(g.nylons, nylonName);
  const { dropper } = rig;
  const first = g.nylons[0]?.id ?? "";
  return (
    <>
      <Pick
        label={t.wire}
        options={lines(g.wires, wireName)}
        value={rig.wire}
        onPick={(wire) => take({ wire })}
      />
      <Pick label={t.backing} options={nylons} value={rig.backing} onPick={(backing) => take({ backing })} />
      <Pick label={t.leader} options={nylons} value={rig.leader} onPick={(leader) => take({ leader })} />
      <Pick
        label={t.spoon}
        options={g.spoons.map((s) => ({ id: s.id, name: spoonInColour(s) }))}
        value={rig.spoon}
        onPick={(spoon) => take({ spoon })}
      />
      <Choices
        label={t.threeWay}
        choices={[
          { value: "no", name: t.no },
          { value: "yes", name: t.yes },
        ]}
        value={dropper ? "yes" : "no"}
        onChoose={(yes) =>
          take({ dropper: yes === "yes" ? { line: first, length: 0.6096, sinker: 0.226796185 } : null })
        }
      />
      {dropper && (
        <>
          <Pick
            label={t.dropperLine}
            options={nylons}
            value={dropper.line}
            onPick={(line) => take({ dropper: { ...dropper, line } })}
          />
          <Stepper
            label={t.dropperLength}
            quantity="depth"
            si={dropper.length}
            onChange={(length) => take({ dropper: { ...dropper, length } })}
            problem={trouble("rig.dropper.length", "depth")}
          />
          <Stepper
            label={t.sinker}
            quantity="weight"
            si={dropper.sinker}
            onChange={(sinker) => take({ dropper: { ...dropper, sinker } })}
            problem={trouble("rig.dropper.sinker", "weight")}
          />
        </>
      )}
    </>
  );
}
