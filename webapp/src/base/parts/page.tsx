/** A page behind a place: a heading, what it is about, and the way back in thumb reach. */
import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { goBack } from "../shell/route";
import { text } from "../text/text";
import { AtFoot, Notices } from "./around";
import { Back } from "./icons";

interface Props {
  title: string;
  /** Where Back leads when one did not come from anywhere in the app. */
  back: string;
  children: ComponentChildren;
  /** What is done here time and again: above the way back, in thumb reach however long the page is. */
  deck?: ComponentChildren;
}

export function Page({ title, back, children, deck }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · ${text.app.name}`;
    heading.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, [title]);
  return (
    <>
      <main class="page">
        <Notices />
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {children}
      </main>
      {deck ? (
        <div class="page-end">
          <section class="page-deck" aria-label={title}>
            {deck}
          </section>
          <Foot back={back} />
        </div>
      ) : (
        <Foot back={back} />
      )}
    </>
  );
}

const Foot = ({ back }: { back: string }) => (
  <nav class="page-foot" aria-label={text.parts.back}>
    <a class="button primary" href={back} onClick={goBack}>
      <Back /> {text.parts.back}
    </a>
    <AtFoot />
  </nav>
);
