/** Instead of a page about something that is not there any more. */
import { Page } from "../parts/page";
import { href } from "../shell/route";
import { text } from "../text/text";

export const Gone = () => (
  <Page title={text.parts.gone} back={href("lines")}>
    <p>{text.parts.goneWhy}</p>
  </Page>
);
