/** Instead of a page about something that is not there any more. */
import { text } from "../text/text";
import { Page } from "./page";

export const Gone = ({ back }: { back: string }) => (
  <Page title={text.parts.gone} back={back}>
    <p>{text.parts.goneWhy}</p>
  </Page>
);
