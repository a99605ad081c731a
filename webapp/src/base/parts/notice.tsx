/** One thing the person has to be told, and what to do about it. */
import type { ComponentChildren } from "preact";
import { once } from "../shell/guard";
import { Warning } from "./icons";

interface NoticeProps {
  alarm?: boolean;
  children: ComponentChildren;
  actions?: ComponentChildren;
}

export function Notice({ alarm, children, actions }: NoticeProps) {
  return (
    <div class={alarm ? "notice alarm" : "notice"} role={alarm ? "alert" : "status"}>
      <p>
        {alarm && <Warning />} {children}
      </p>
      {actions && <div class="notice-actions">{actions}</div>}
    </div>
  );
}

export const Act = ({ onTap, children }: { onTap: () => void; children: ComponentChildren }) => (
  <button type="button" class="button" onClick={once(onTap)}>
    {children}
  </button>
);
