/** What goes on paper: black on white, and nothing of the screen. */
import type { ComponentChildren } from "preact";
import { useLayoutEffect } from "preact/hooks";
import { Printer } from "../../base/parts/icons";
import { once } from "../../base/shell/guard";
import { boat } from "../../state/crew/boat";
import { checkWords, type List, listName } from "../../state/crew/lists";

/** Is on the page only when it is printed. */
export function Paper({ title, children }: { title: string; children: ComponentChildren }) {
  useLayoutEffect(() => {
    document.body.dataset.paper = "";
    return () => {
      delete document.body.dataset.paper;
    };
  }, []);
  return (
    <section class="paper">
      <header>
        <b>{title}</b> <span>{boat.value.name}</span>
      </header>
      {children}
    </section>
  );
}

export const PaperLists = ({ of }: { of: List[] }) => (
  <div class="paper-lists">
    {of.map((one) => (
      <section key={one.list}>
        <h2>{listName(one)}</h2>
        <ul>
          {one.items.map((item) => (
            <li key={item}>{checkWords(item)}</li>
          ))}
        </ul>
      </section>
    ))}
  </div>
);

export const PrintButton = ({ name }: { name: string }) => (
  <button type="button" class="button" onClick={once(() => window.print())}>
    <Printer /> {name}
  </button>
);
