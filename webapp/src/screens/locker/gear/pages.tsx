/** The saved gear: the kinds, the items of a kind, and one item to edit. */
import { On, Plus } from "../../../base/parts/icons";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { go, goInstead, href } from "../../../base/shell/route";
import { fromDesk, text } from "../../../base/text/text";
import { addLike, itemsOf, nameOf, remove, usedBy } from "../../../state/gear/change";
import { gear, type Kind } from "../../../state/gear/gear";
import { isKind, kinds } from "../../../state/gear/kinds";
import { spoonInColour } from "../../../state/gear/names";
import { GearForm } from "./form";

export const GearPage = () => (
  <Page title={text.gear.title} back={href("locker")}>
    <p>{text.gear.what}</p>
    <ul class="links">
      {(Object.keys(kinds) as Kind[]).map((kind) => (
        <li key={kind}>
          <a class="button" href={href("gear", kind)}>
            {text.gear.kinds[kind]} ({gear.value[kind].length}) <On />
          </a>
        </li>
      ))}
    </ul>
  </Page>
);

export function KindPage({ id: kind }: { id: string }) {
  if (!isKind(kind)) return <GearPage />;
  const items = itemsOf(gear.value, kind);
  const add = () => {
    const like = items[items.length - 1];
    if (like) go("gear", kind, addLike(kind, like));
  };
  return (
    <Page title={text.gear.kinds[kind]} back={href("gear")}>
      <ul class="links">
        {items.map((item) => (
          <li key={item.id}>
            <a class="button" href={href("gear", kind, item.id)}>
              <span>
                {"colour" in item ? spoonInColour(item) : nameOf(kind, item)}
                <small class="soft">{fromDesk(item.source)}</small>
              </span>
              <On />
            </a>
          </li>
        ))}
      </ul>
      <button type="button" class="button" onClick={once(add)}>
        <Plus /> {text.gear.add}
      </button>
    </Page>
  );
}

export const ItemPage = (kind: Kind) =>
  function Item({ id }: { id: string }) {
    const items = itemsOf(gear.value, kind);
    const item = items.find((one) => one.id === id);
    if (!item) return <KindPage id={kind} />;
    const users = usedBy(gear.value, kind, id);
    const gone = () => {
      remove(kind, id);
      goInstead("gear", kind);
    };
    return (
      <Page title={nameOf(kind, item)} back={href("gear", kind)}>
        <GearForm kind={kind} item={item} />
        <p class="soft">{text.gear.source(fromDesk(item.source))}</p>
        {users.length > 0 && <p>{text.gear.usedBy(users)}</p>}
        {users.length === 0 && items.length > 1 && (
          <button type="button" class="button" onClick={once(gone)}>
            {text.gear.remove}
          </button>
        )}
      </Page>
    );
  };
