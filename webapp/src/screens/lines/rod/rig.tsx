/** Where a rod stands and what is on it, chosen from the saved gear. */

import { Gone } from "../../../base/parts/gone";
import { On } from "../../../base/parts/icons";
import { Pick } from "../../../base/parts/input/pick";
import { saySomewhere } from "../../../base/parts/input/problem";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { amount } from "../../../base/units/show";
import { gear } from "../../../state/gear/gear";
import { placeName, rigInColour } from "../../../state/gear/names";
import { changeRod, changeUndoably, complaint } from "../../../state/spread/solved";
import { spread } from "../../../state/spread/spread";

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
        options={rigs.map((r) => ({ id: r.id, name: rigInColour(r, gear.value) }))}
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
