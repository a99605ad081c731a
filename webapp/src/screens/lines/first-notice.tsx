import type { Told } from "../../base/parts/around";
import { On } from "../../base/parts/icons";
import { Act, Notice } from "../../base/parts/notice";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { noteCautions, settings } from "../../base/units/settings";

/** Told on the first place until it has been noted or read; in the Locker for ever. */
export function firstTold(): Told | undefined {
  if (settings.value.cautionsRead) return undefined;
  return { short: text.start.title, whole: <FirstNotice key="first" /> };
}

const FirstNotice = () => (
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
