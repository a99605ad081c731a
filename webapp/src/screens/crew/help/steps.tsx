/** What to do, in order: large enough to be read at arm's length, each with who says so. */
import type { Advice } from "../../../base/text/en/fish";
import { text } from "../../../base/text/text";

const t = text.help;

export const Steps = ({ of }: { of: Advice[] }) => (
  <>
    <ol class="help-steps">
      {of.map(({ what, source }) => (
        <li key={what}>
          <span>
            {what}
            {source && <small class="soft">{t.source(source)}</small>}
          </span>
        </li>
      ))}
    </ol>
    <p class="soft">{t.defer}</p>
  </>
);
