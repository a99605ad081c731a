/** Files that are made at a tap and handed over; what went wrong, or was left out, is told beside the button. */
import { useSignal } from "@preact/signals";
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
