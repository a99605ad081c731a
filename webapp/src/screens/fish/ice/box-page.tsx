/** A box to edit: its size inside, its walls, or what the maker tells of them. */
import { limits } from "../../../base/desk/types/chill.gen";
import { Gone } from "../../../base/parts/gone";
import { Plus } from "../../../base/parts/icons";
import { Choices } from "../../../base/parts/input/choices";
import { LimitedStepper } from "../../../base/parts/input/limited";
import { TextField } from "../../../base/parts/input/text-field";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { offerUndo } from "../../../base/shell/undo";
import { newId } from "../../../base/store/id";
import { text } from "../../../base/text/text";
import { amount } from "../../../base/units/show";
import { type IceBox, ice, materials } from "../../../state/fish/ice";

const t = text.fish.ice;

/** Its own name, or that of the boxes to begin with; and how much goes in. */
export function boxName({ id, name, length, width, height }: IceBox): string {
  const first = t.names[id as keyof typeof t.names] ?? t.box;
  return t.boxOf(name || first, amount("volume", length * width * height));
}

const sizes = [
  ["length", "size"],
  ["width", "size"],
  ["height", "size"],
  ["wall", "ruler"],
] as const;

export function BoxPage({ id }: { id: string }) {
  const day = ice.value;
  const box = day.boxes.find((one) => one.id === id);
  if (!box) return <Gone back={href("fish", "ice")} />;
  const change = (patch: Partial<IceBox>) =>
    ice.set({
      ...day,
      boxes: day.boxes.map((one) => (one.id === id ? { ...one, source: t.own, ...patch } : one)),
    });
  const another = () => {
    const next = newId();
    ice.set({ ...day, box: next, boxes: [...day.boxes, { ...box, id: next, name: "", source: t.own }] });
    goInstead("fish", "box", next);
  };
  const remove = () => {
    const boxes = day.boxes.filter((one) => one.id !== id);
    ice.set({ ...day, boxes, box: boxes[0]?.id ?? "" });
    offerUndo(t.removed(boxName(box)), () => ice.set(day));
    goInstead("fish", "ice");
  };
  return (
    <Page title={boxName(box)} back={href("fish", "ice")}>
      <section class="form">
        <TextField label={t.name} value={box.name} most={60} onText={(name) => change({ name })} />
        {sizes.map(([key, quantity]) => (
          <LimitedStepper
            key={key}
            label={t[key]}
            quantity={quantity}
            si={box[key]}
            limits={limits.Box[key]}
            onChange={(si) => change({ [key]: si })}
          />
        ))}
        <Choices
          label={t.material}
          choices={materials.map((value) => ({ value, name: t.materials[value] }))}
          value={box.material}
          onChoose={(material) => change({ material })}
        />
        <LimitedStepper
          label={t.u}
          quantity="transmittance"
          si={box.u}
          limits={limits.Box.u}
          zero={t.byWall}
          onChange={(u) => change({ u })}
        />
        <LimitedStepper
          label={t.empty}
          quantity="mass"
          si={box.mass}
          limits={limits.Box.mass}
          zero={t.cooled}
          onChange={(mass) => change({ mass })}
        />
      </section>
      <p class="soft">{text.gear.source(box.source || t.memory)}</p>
      <div class="button-row">
        <button type="button" class="button" onClick={once(another)}>
          <Plus /> {t.another}
        </button>
        {day.boxes.length > 1 && (
          <button type="button" class="button" onClick={once(remove)}>
            {t.remove}
          </button>
        )}
      </div>
    </Page>
  );
}
