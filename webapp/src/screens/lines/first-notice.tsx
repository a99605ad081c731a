import { Act, Notice } from "../../base/parts/notice";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { noteCautions, settings } from "../../base/units/settings";

/** Shown on the first place until it has been noted or read; in the Locker for ever. */
export function FirstNotice() {
  if (settings.value.cautionsRead) return null;
  return (
    <Notice
      actions={
        <>
          <a class="button" href={href("start")}>
            {text.start.title}
          </a>
          <Act onTap={noteCautions}>{text.notices.noted}</Act>
        </>
      }
    >
      {text.cautions.short} {text.start.offer}
    </Notice>
  );
}
