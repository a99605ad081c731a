/** A page behind a place: a heading, what it is about, and the way back in thumb reach. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { arrive } from "../shell/focus";
import { goBack } from "../shell/route";
import { text } from "../text/text";
import { AtFoot, Notices } from "./around";
import { Back } from "./icons";

interface Props {
  title: string;
  /** Where Back leads when one did not come from anywhere in the app. */
  back?: string;
  children: ComponentChildren;
  /** What is done here time and again: above the way back, in thumb reach however long the page is. */
  deck?: ComponentChildren;
  /** In the place of the way back. */
  foot?: ComponentChildren;
  /** Before the heading. */
  above?: ComponentChildren;
  kind?: string;
  onClickCapture?: (event: MouseEvent) => void;
}

export function Page({ title, back = "", children, deck, foot, above, kind = "", onClickCapture }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · ${text.app.name}`;
    arrive(heading.current);
  }, [title]);
  return (
    <div class="page-frame" onClickCapture={onClickCapture}>
      <main class={`page ${kind}`}>
        {above}
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {children}
      </main>
      <footer class="page-end">
        <Notices />
        {deck && (
          <section class="page-deck" aria-label={title}>
            {deck}
          </section>
        )}
        {foot ?? <Foot back={back} />}
      </footer>
    </div>
  );
}

const Foot = ({ back }: { back: string }) => (
  <nav class="page-foot page-back" aria-label={text.parts.back}>
    <a class="button" href={back} onClick={goBack}>
      <Back /> {text.parts.back}
    </a>
    <AtFoot />
  </nav>
);
