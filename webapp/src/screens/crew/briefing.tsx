/** The briefing, page by page: large words to read from, or to be read by each guest. */
import { Back, On } from "../../base/parts/icons";
import { Page } from "../../base/parts/page";
import { once } from "../../base/shell/guard";
import { goInstead, href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { pages } from "../../state/crew/first";
import { ReadOut } from "./aloud";
import { drawings } from "./drawings";
import { BoatMissing, Words } from "./radio-words";

const t = text.crew.reading;

export function BriefingPage({ id }: { id: string }) {
  const number = Math.min(Math.max(Math.round(Number(id)) || 1, 1), pages.length);
  const page = pages[number - 1] ?? pages[0];
  const { title, words, from } = text.crew.pages[page];
  const turn = (to: number) => once(() => goInstead("crew", "briefing", String(to)));
  return (
    <Page
      title={title}
      kind="brief"
      above={
        <>
          <p class="soft">{t.title(number, pages.length)}</p>
          <svg class="sketch" viewBox="0 0 320 130" aria-hidden="true">
            {drawings[page]}
          </svg>
        </>
      }
      foot={
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
      }
    >
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
    </Page>
  );
}
