/** Tells of data that was put aside as unreadable: to be saved to a file, and then let go of. */
import { signal } from "@preact/signals";
import { handOver } from "../phone/hand-over";
import { offerUndo } from "../shell/undo";
import { asideFile, failures, isEarly, namesAside } from "../store/aside";
import { letGo, troubled } from "../store/kept";
import { text } from "../text/text";
import { Act, Notice } from "./notice";

/** Documents of which a file has been saved since the start. */
const filed = signal<string[]>([]);

/** One notice of all that has the same cause. */
export function Aside({ names, onNoted }: { names: string[]; onNoted?: () => void }) {
  const t = text.notices.aside;
  const saved = names.every((name) => filed.value.includes(name));
  const save = async () => {
    const file = names.length === 1 ? `wirewake-aside-${names[0]}.json` : "wirewake-aside.json";
    if (await handOver(file, asideFile(names, Date.now()))) filed.value = [...filed.value, ...names];
  };
  const drop = async () => {
    const back = await Promise.all(names.map(letGo));
    filed.value = filed.value.filter((one) => !names.includes(one));
    offerUndo(t.gone, async () => {
      for (const one of back) await one();
    });
  };
  const what = names.every(isEarly) ? t.early : t.what;
  return (
    <Notice
      actions={
        <>
          {namesAside().some((name) => names.includes(name)) && <Act onTap={save}>{t.save}</Act>}
          {saved && <Act onTap={drop}>{t.letGo}</Act>}
          {onNoted && <Act onTap={onNoted}>{text.notices.noted}</Act>}
        </>
      }
    >
      {names[0] === failures ? t.report : what(names)} {saved && t.saved}
    </Notice>
  );
}

/** What is still aside though it is not announced any more. */
export function StillAside() {
  const announced = [...troubled("unreadable"), ...troubled("early")];
  return (
    <>
      {namesAside()
        .filter((name) => !announced.includes(name))
        .map((name) => (
          <Aside key={name} names={[name]} />
        ))}
    </>
  );
}
