/** On Lines: the way to the sounder's page, and what was read there last. */
import { useSeconds } from "../../../base/parts/seconds";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { age, amount } from "../../../base/units/show";
import { readNow } from "../../../state/rise/soundings";

export function RiseLink() {
  useSeconds();
  const now = Date.now();
  const [last] = readNow(now);
  const t = text.rise;
  return (
    <a class="button" href={href("lines", "rise")}>
      {last ? t.link(amount("depth", last.depth), age(now - last.at)) : t.linkNone}
    </a>
  );
}
