/** One thing the person has to be told, and what to do about it. */
import { useSignal } from "@preact/signals";
import { type ComponentChildren, createContext } from "preact";
import { useContext, useRef } from "preact/hooks";
import { once } from "../shell/guard";
import { useComing } from "../shell/moved";
import { pose } from "../shell/pose";
import { Down, On, Warning } from "./icons";

interface NoticeProps {
  alarm?: boolean;
  /** What was just done, with the way back: it goes by itself. */
  done?: boolean;
  /** Styles of its own. */
  kind?: string;
  children: ComponentChildren;
  actions?: ComponentChildren;
}

/** Around what somebody has asked to see whole. */
export const Whole = createContext(false);

/** Around an alarm that is not the only one: the way to the next, beside what is done about this. */
export const Beside = createContext<ComponentChildren>(undefined);

export function Notice({ alarm, done, kind = "", children, actions }: NoticeProps) {
  const further = useContext(Beside);
  const asked = useContext(Whole);
  const notice = useRef<HTMLDivElement>(null);
  useComing(notice, !asked && Boolean(alarm || done));
  return (
    <div
      ref={notice}
      class={`notice ${alarm ? "alarm" : done ? "done" : ""} ${kind}`}
      role={alarm ? "alert" : "status"}
    >
      <p>
        {alarm && <Warning />} {children}
      </p>
      {(actions || further) && (
        <div class="notice-actions">
          {actions}
          {further}
        </div>
      )}
    </div>
  );
}

interface BriefProps {
  /** All of it in one line. */
  brief: string;
  /** What is mostly done about it. */
  act: ComponentChildren;
  /** What else can be done. */
  more?: ComponentChildren;
  children: ComponentChildren;
}

/** On a phone it would cover what it is about: there it is one line, and whole from one tap to the next. Not for cautions. */
export function BriefNotice({ brief, act, more, children }: BriefProps) {
  const open = useSignal(false);
  const whole = useContext(Whole);
  if (whole || pose.value === "wide")
    return (
      <Notice
        actions={
          <>
            {act}
            {more}
          </>
        }
      >
        {children}
      </Notice>
    );
  return (
    <div class="notice brief" role="status">
      <button
        type="button"
        aria-expanded={open.value}
        onClick={once(() => {
          open.value = !open.value;
        }, 0)}
      >
        <span>{open.value ? children : brief}</span> {open.value ? <Down /> : <On />}
      </button>
      {act}
      {open.value && more}
    </div>
  );
}

export const Act = ({ onTap, children }: { onTap: () => void; children: ComponentChildren }) => (
  <button type="button" class="button" onClick={once(onTap)}>
    {children}
  </button>
);
