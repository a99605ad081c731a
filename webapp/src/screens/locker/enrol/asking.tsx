/** A question to the server on its way: what came back, or why nothing did. */
import { type Signal, useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { text } from "../../../base/text/text";
import { Failed, type Trouble } from "../../../state/enrol/server";

export interface Asking<T> {
  answer: Signal<T | undefined>;
  working: Signal<boolean>;
  trouble: Signal<Trouble | undefined>;
  ask: (question: () => Promise<T>) => Promise<T | undefined>;
}

export function useAsking<T>(): Asking<T> {
  const answer = useSignal<T | undefined>(undefined);
  const working = useSignal(false);
  const trouble = useSignal<Trouble | undefined>(undefined);
  const ask = async (question: () => Promise<T>) => {
    if (working.value) return undefined;
    working.value = true;
    trouble.value = undefined;
    try {
      answer.value = await question();
      return answer.value;
    } catch (fault) {
      if (!(fault instanceof Failed)) throw fault;
      trouble.value = fault.why;
      return undefined;
    } finally {
      working.value = false;
    }
  };
  return { answer, working, trouble, ask };
}

export function AskingState({ of }: { of: Pick<Asking<unknown>, "working" | "trouble"> }) {
  const why = of.working.value ? undefined : of.trouble.value;
  const said = useRef<HTMLParagraphElement>(null);
  // It comes below what was tapped, and that may be the last that the screen holds.
  useEffect(() => {
    if (why) said.current?.scrollIntoView({ block: "nearest" });
  }, [why]);
  return (
    <p role="status" ref={said} class={why ? "notice" : undefined}>
      {of.working.value
        ? text.enrol.asking
        : why &&
          (why.kind === "said" ? (text.enrol.saidByServer[why.code] ?? why.text) : text.enrol[why.kind])}
    </p>
  );
}
