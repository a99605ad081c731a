/** Tells of data that was put aside as unreadable: to be saved to a file, and then let go of. */
import { signal } from "@preact/signals";
import { handOver } from "../phone/hand-over";
import { offerUndo } from "../shell/undo";
import { asideFile, failures, namesAside } from "../store/aside";
import { letGo, storageTroubles } from "../store/kept";
import { text } from "../text/text";
import { Act, Notice } from "./notice";

/** Documents of which a file has been saved since the start. */
const filed = signal<string[]>([]);

export function Aside({ name, onNoted }: { name: string; onNoted?: () => void }) {
  const t = text.notices.aside;
  const saved = filed.value.includes(name);
  const save = async () => {
    if (await handOver(`wirewake-aside-${name}.json`, asideFile(name, Date.now())))
      filed.value = [...filed.value, name];
  };
  const drop = async () => {
    const back = await letGo(name);
    filed.value = filed.value.filter((one) => one !== name);
    offerUndo(t.gone, back);
  };
  return (
    <Notice
      actions={
        <>
          {namesAside().includes(name) && <Act onTap={save}>{t.save}</Act>}
          {saved && <Act onTap={drop}>{t.letGo}</Act>}
          {onNoted && <Act onTap={onNoted}>{text.notices.noted}</Act>}
        </>
      }
    >
      {name === failures ? t.report : t.what(name)} {saved && t.saved}
    </Notice>
  );
}

/** What is still aside though it is not announced any more. */
export function StillAside() {
  const announced = storageTroubles.value.filter((t) => t.kind === "unreadable").map((t) => t.name);
  return (
    <>
      {namesAside()
        .filter((name) => !announced.includes(name))
        .map((name) => (
          <Aside key={name} name={name} />
        ))}
    </>
  );
}
