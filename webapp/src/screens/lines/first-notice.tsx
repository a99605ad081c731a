import { On } from "../../base/parts/icons";
import { Act, Notice } from "../../base/parts/notice";
import { href } from "../../base/shell/route";
import { announcing } from "../../base/shell/undo";
import { text } from "../../base/text/text";
import { noteCautions, settings } from "../../base/units/settings";

/** Shown on the first place until it has been noted or read; in the Locker for ever. */
export function FirstNotice() {
  // What was just done is told first.
  if (settings.value.cautionsRead || announcing.value) return null;
  return (
    <Notice actions={<Act onTap={noteCautions}>{text.notices.noted}</Act>}>
      <a class="first-steps" href={href("start")}>
        <span>
          <b>
            {text.start.title} <On />
          </b>{" "}
          {text.cautions.short}
        </span>
      </a>
    </Notice>
  );
}
