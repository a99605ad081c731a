/** What the person has to be told, wherever they are in the app: each with what to do about it. */
import { desk } from "../base/desk/desk";
import { Aside } from "../base/parts/aside";
import { Act, Notice } from "../base/parts/notice";
import { href } from "../base/shell/route";
import { undoable } from "../base/shell/undo";
import { noted, storageTroubles } from "../base/store/kept";
import { text } from "../base/text/text";
import { Elsewhere } from "../screens/locker/ready/elsewhere";
import { acceptUpdate, updateOffered } from "../state/update/offline";

export function Notices() {
  const t = text.notices;
  return (
    <div class="notices">
      {undoable.value && (
        <Notice actions={<Act onTap={undoable.value.undo}>{t.undo}</Act>}>{undoable.value.what}</Notice>
      )}
      {desk.state.value === "stopped" && (
        <Notice alarm actions={<Act onTap={() => desk.start()}>{t.startAgain}</Act>}>
          {t.deskStopped}
        </Notice>
      )}
      {desk.state.value === "restarted" && (
        <Notice actions={<Act onTap={() => desk.noted()}>{t.noted}</Act>}>{t.deskRestarted}</Notice>
      )}
      {storageTroubles.value.map((trouble) =>
        trouble.kind === "unreadable" ? (
          <Aside key={trouble.name} name={trouble.name} onNoted={() => noted(trouble)} />
        ) : (
          <Notice
            key={trouble.kind + trouble.name}
            alarm={trouble.kind === "unsaved"}
            actions={trouble.kind !== "unsaved" && <Act onTap={() => noted(trouble)}>{t.noted}</Act>}
          >
            {t.storage(trouble)}
          </Notice>
        ),
      )}
      {updateOffered.value && (
        <Notice actions={<Act onTap={acceptUpdate}>{t.loadUpdate}</Act>}>{t.update}</Notice>
      )}
      <Elsewhere />
      {!isSecureContext && (
        <Notice
          actions={
            <a class="button" href={href("locker", "ready")}>
              {t.whatToDo}
            </a>
          }
        >
          {t.insecure}
        </Notice>
      )}
    </div>
  );
}
