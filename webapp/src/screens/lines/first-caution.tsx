import { Act, Notice } from "../../base/parts/notice";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { settings } from "../../base/units/settings";

/** Shown on the first place until it has been noted; in the locker for ever. */
export function FirstCaution() {
  if (settings.value.cautionsRead) return null;
  return (
    <Notice
      actions={
        <>
          <a class="button" href={href("locker", "cautions")}>
            {text.notices.readCautions}
          </a>
          <Act onTap={() => settings.set({ ...settings.value, cautionsRead: true })}>
            {text.notices.noted}
          </Act>
        </>
      }
    >
      {text.cautions.short}
    </Notice>
  );
}
