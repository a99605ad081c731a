/** Instead of a record or a trip that is not there. */
import { Page } from "../parts/page";
import { href } from "../shell/route";
import { text } from "../text/text";

export const Gone = () => (
  <Page title={text.parts.gone} back={href("notes")}>
    <p>{text.parts.goneWhy}</p>
  </Page>
);
