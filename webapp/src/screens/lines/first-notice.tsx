import { On } from "../../base/parts/icons";
import { Act, Notice } from "../../base/parts/notice";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { noteCautions, settings } from "../../base/units/settings";

/** Shown on the first place until it has been noted or read; in the Locker for ever. */
export function FirstNotice() {
  if (settings.value.cautionsRead) return null;
  return (
    <Notice actions={<Act onTap={noteCautions}>{text.notices.noted}</Act>}>
      <a class="first-steps" href={href("start")}>
        {text.cautions.short} <b>{text.start.title}</b> <On />
      </a>
    </Notice>
  );
}
