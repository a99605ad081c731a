/** What only the skipper's phone may, on another that came here by its address: what may be done instead. */
import { On } from "../../../base/parts/icons";
import { Page } from "../../../base/parts/page";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";

const t = text.enrol;

export const NotYours = ({ title }: { title: string }) => (
  <Page title={title} back={href("enrol")}>
    <p>{t.skippers}</p>
    <a class="button" href={href("enrol")}>
      {t.title} <On />
    </a>
  </Page>
);
