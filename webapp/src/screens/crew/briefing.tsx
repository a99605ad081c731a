/** The briefing, page by page: large words to read from, or to be read by each guest. */
import { useEffect, useRef } from "preact/hooks";
import { Notices } from "../../base/parts/around";
import { Back, On } from "../../base/parts/icons";
import { once } from "../../base/shell/guard";
import { goInstead, href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { pages } from "../../state/crew/first";
import { ReadOut } from "./aloud";
import { drawings } from "./drawings";
import { BoatMissing, Words } from "./radio";

const t = text.crew.reading;

export function BriefingPage({ id }: { id: string }) {
  const number = Math.min(Math.max(Math.round(Number(id)) || 1, 1), pages.length);
  const page = pages[number - 1] ?? pages[0];
  const { title, words, from } = text.crew.pages[page];
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${title} · ${text.app.name}`;
    heading.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, [title]);
  const turn = (to: number) => once(() => goInstead("crew", "briefing", String(to)));
  return (
    <>
      <main class="page brief">
        <Notices />
        <p class="soft">{t.title(number, pages.length)}</p>
        <svg class="drawing" viewBox="0 0 320 130" aria-hidden="true">
          {drawings[page]}
        </svg>
        <h1 ref={heading} tabIndex={-1}>
          {title}
        </h1>
        {words.map((sentence) => (
          <p key={sentence} class="brief-words">
            {sentence}
          </p>
        ))}
        {page === "radio" && (
          <>
            <Words />
            <BoatMissing />
          </>
        )}
        <p class="soft">{from}</p>
      </main>
      <nav class="page-foot brief-foot" aria-label={t.turn}>
        {number === 1 ? (
          <a class="button" href={href("crew")}>
            <Back /> {text.parts.back}
          </a>
        ) : (
          <button type="button" class="button" onClick={turn(number - 1)}>
            <Back /> {t.before}
          </button>
        )}
        <ReadOut words={[title, ...words]} />
        {number < pages.length ? (
          <button type="button" class="button primary" onClick={turn(number + 1)}>
            {t.next} <On />
          </button>
        ) : (
          <button type="button" class="button primary" onClick={once(() => goInstead("crew", "briefed"))}>
            {t.end} <On />
          </button>
        )}
      </nav>
    </>
  );
}
