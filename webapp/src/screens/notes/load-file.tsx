/** The button that loads notes from a file, and what came of it. */
import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import { loadNotes } from "../../state/notes/files";

export function LoadFile({ name }: { name: string }) {
  const id = useId();
  const said = useSignal("");
  const load = async (file: File) => {
    said.value = await loadNotes(file);
  };
  return (
    <>
      <label class="button file" for={id}>
        {name}
        <input
          id={id}
          type="file"
          accept=".json,application/json"
          onChange={({ currentTarget }) => {
            const file = currentTarget.files?.[0];
            if (file) load(file);
            currentTarget.value = "";
          }}
        />
      </label>
      <p role="status">{said}</p>
    </>
  );
}
