/** The frame of a page for the worst minutes: large words, and one row at the thumb with the voice in it. */
import type { ComponentChildren, RefObject } from "preact";
import { Back } from "../../../base/parts/icons";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { goBack } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { ReadOut } from "../aloud";

interface Props {
  title: string;
  back: string;
  above?: ComponentChildren;
  /** To be read out. */
  words: string[];
  /** The heading of the words for the radio, where they are further down: a tap away wherever one reads. */
  radio?: RefObject<HTMLHeadingElement | null> | false;
  children: ComponentChildren;
  foot?: ComponentChildren;
  /** Over the foot. */
  deck?: ComponentChildren;
}

export const HelpFrame = ({ title, back, above, words, radio, children, foot, deck }: Props) => (
  <Page
    title={title}
    kind="help-page"
    above={above}
    deck={deck}
    foot={
      <nav class="page-foot page-back help-foot" aria-label={text.parts.back}>
        <a class="button" href={back} onClick={goBack}>
          <Back /> {text.parts.back}
        </a>
        <ReadOut words={[title, ...words]} />
        {radio && (
          <button type="button" class="button to-radio" onClick={once(() => radio.current?.scrollIntoView())}>
            {text.help.toRadio}
          </button>
        )}
        {foot}
      </nav>
    }
  >
    {children}
  </Page>
);
