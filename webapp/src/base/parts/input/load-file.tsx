/** A button that loads from a file, and what came of it. */
import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";

interface Props {
  name: string;
  /** Which files are offered; those of JSON without. */
  accept?: string;
  /** Takes the file in; tells what came of it. */
  onFile: (file: File) => Promise<string>;
}

export function LoadFile({ name, accept = ".json,application/json", onFile }: Props) {
  const id = useId();
  const said = useSignal("");
  const load = async (file: File) => {
    said.value = await onFile(file);
  };
  return (
    <>
      <label class="button file" for={id}>
        {name}
        <input
          id={id}
          type="file"
          accept={accept}
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
