/**
 * One of the places of the app: what is looked at scrolls, what is done stays in thumb reach, and between the two
 * stands what has to be told. Lying sideways, the two are side by side, and what has to be told is a strip above both.
 */
import type { ComponentChildren } from "preact";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { arrive } from "../shell/focus";
import { useMoved } from "../shell/moved";
import { text } from "../text/text";
import { Notices, type Own, placeAlarms, Quick, type Told } from "./around";
import { Boundary } from "./boundary";

interface Props {
  title: string;
  /** Styles of this place. */
  kind: string;
  /** Above what scrolls. */
  head?: ComponentChildren;
  children: ComponentChildren;
  /** Alarms of this place alone. */
  alarms?: Told[];
  /** What must be answered here. */
  asks?: ComponentChildren;
  /** What else is told here and in no other place. */
  told?: Own;
  deck?: ComponentChildren;
  deckName: string;
  /** Beside Mark and Fish up; false: without those. */
  quick?: ComponentChildren;
  /** More of a part's own, beside the rest where the screen is wide. */
  aside?: ComponentChildren;
}

const none: Told[] = [];

export function Place(props: Props) {
  const { title, kind, head, children, alarms = none, asks, told, deck, deckName, quick, aside } = props;
  useEffect(() => {
    document.title = `${title} · ${text.app.name}`;
    arrive();
  }, [title]);
  useLayoutEffect(() => {
    placeAlarms.value = alarms;
    return () => {
      placeAlarms.value = none;
    };
  }, [alarms]);
  const place = useRef<HTMLElement>(null);
  const list = useRef<HTMLDivElement>(null);
  useMoved(place, list);
  return (
    <main class={`place ${kind}`} ref={place}>
      <h1 class="visually-hidden">{title}</h1>
      <div class="place-view">
        <Boundary what={title}>{head}</Boundary>
        <div class="place-list" ref={list}>
          <Boundary what={title}>{children}</Boundary>
        </div>
      </div>
      {aside && (
        <div class="place-aside">
          <Boundary what={title}>{aside}</Boundary>
        </div>
      )}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what is longer than its place is scrolled by keys too */}
      <div class="told-area" tabIndex={0}>
        <Boundary what={title}>{asks}</Boundary>
        <Notices own={told} />
      </div>
      <section class="place-deck" aria-label={deckName}>
        <Boundary what={deckName}>{deck}</Boundary>
        {quick !== false && (
          <Quick>
            <Boundary what={deckName}>{quick}</Boundary>
          </Quick>
        )}
      </section>
    </main>
  );
}
