/** Where a rod stands and what is on it, chosen from the saved gear. */
import { gear } from "../gear/gear";
import { placeName, rigName } from "../gear/names";
import { Gone } from "../parts/gone";
import { On } from "../parts/icons";
import { Page } from "../parts/page";
import { Pick } from "../parts/pick";
import { saySomewhere } from "../parts/problem";
import { once } from "../shell/guard";
import { goInstead, href } from "../shell/route";
import { text } from "../text/text";
import { amount } from "../units/show";
import { spread } from "./spread";
import { changeRod, changeUndoably, complaint } from "./state";

export function RodRigPage({ id }: { id: string }) {
  const { rods } = spread.value;
  const rod = rods.find((r) => r.id === id);
  if (!rod) return <Gone back={href("lines")} />;
  const { places, rigs } = gear.value;
  const t = text.lines.rig;
  const place = places.find((p) => p.id === rod.place) ?? places[0];
  const remove = () => {
    changeUndoably(t.removed(place ? placeName(place) : ""), { rods: rods.filter((r) => r.id !== id) });
    goInstead("lines");
  };
  return (
    <Page title={t.title} back={href("lines")}>
      <Pick
        label={t.place}
        options={places.map((p) => ({
          id: p.id,
          name: `${placeName(p)}, ${t.tip(amount("depth", p.tipHeight))}`,
        }))}
        value={rod.place}
        onPick={(chosen) => changeRod(id, { place: chosen })}
      />
      <Pick
        label={t.rig}
        options={rigs.map((r) => ({ id: r.id, name: rigName(r, gear.value) }))}
        value={rod.rig}
        onPick={(chosen) => changeRod(id, { rig: chosen })}
      />
      <p role="alert">{complaint.value && saySomewhere(complaint.value)}</p>
      <a class="button" href={href("gear", "rigs", rod.rig)}>
        {t.edit} <On />
      </a>
      <a class="button" href={href("gear", "rigs")}>
        {t.all} <On />
      </a>
      {rods.length > 1 && (
        <button type="button" class="button" onClick={once(remove)}>
          {t.remove}
        </button>
      )}
    </Page>
  );
}
