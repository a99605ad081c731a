/** The checks before leaving: a tap ticks one, another takes the tick back. */
import { words } from "../log/fold";
import { amend, note, records, running } from "../log/log";
import { Check } from "../parts/icons";
import { Page } from "../parts/page";
import { once } from "../shell/guard";
import { href } from "../shell/route";
import { text } from "../text/text";
import { useTrip } from "./refer";

const t = text.notes;

export function ChecksPage() {
  useTrip(running.value?.trip);
  const { list, items, label } = t.checks;
  return (
    <Page title={t.add.tick} back={href("notes")}>
      <ul class="links">
        {items.map((item) => {
          const record = records.value.find(
            (one) => one.kind === "tick" && words(one, "list") === list && words(one, "item") === item,
          );
          const done = record?.fields.get("done")?.value === true;
          const tap = () =>
            record ? amend(record, { done: !done }) : note("tick", { list, item, done: true });
          return (
            <li key={item}>
              <button type="button" class="button" aria-pressed={done} onClick={once(tap)}>
                <span>{item}</span>
                <span class="tick">{done && <Check />}</span>
              </button>
            </li>
          );
        })}
      </ul>
      <p class="soft">{label}</p>
    </Page>
  );
}
