/** Files that are made at a tap and handed over; what went wrong, or was left out, is told beside the button. */
import { type Signal, useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { Refused } from "../../desk/desk";
import { once } from "../../shell/guard";
import { text } from "../../text/text";

/** What is to be told, and what a tap does that makes a file; making it may tell what came of it. */
export function useSaving() {
  const said = useSignal("");
  const saving = (make: () => Promise<string | undefined>) =>
    once(async () => {
      said.value = "";
      said.value = await told(make);
    });
  return { said, saving };
}

export async function told(make: () => Promise<string | undefined>): Promise<string> {
  try {
    return (await make()) ?? "";
  } catch (fault) {
    return fault instanceof Refused ? text.notes.formats.tooMuch : text.notes.formats.failed;
  }
}

/** What is told of it, in sight: the page may end below the button. */
export function Said({ of }: { of: Signal<string> }) {
  const place = useRef<HTMLParagraphElement>(null);
  const words = of.value;
  useEffect(() => {
    if (words) place.current?.scrollIntoView({ block: "nearest" });
  }, [words]);
  return (
    <p role="status" ref={place}>
      {words}
    </p>
  );
}
