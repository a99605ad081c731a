/** A photo to note: made smaller on this phone, kept, and sent after the notes. */
import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import { Camera } from "../../base/parts/icons";
import { Page } from "../../base/parts/page";
import { goInstead, href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { records, running } from "../../state/log/log";
import { refer, useTrip } from "../../state/log/refer";
import { create } from "../../state/notes/create";
import { canKeepPhotos, NoPicture, shrink } from "../../state/photos/shrink";

const t = text.notes.photos;

/** The most that a trip may have. */
const most = 200;

export function PhotoPage() {
  useTrip(running.value?.trip);
  const id = useId();
  const working = useSignal(false);
  const problem = useSignal("");
  const enough = records.value.filter((record) => record.kind === "photo").length >= most;
  const take = async (file: File) => {
    working.value = true;
    problem.value = "";
    try {
      const { full, thumb, width, height } = await shrink(file);
      const { sha256, bytes } = full;
      const set = { sha256, bytes: bytes.byteLength, width, height, of: null };
      goInstead("notes", "told", refer(create("photo", set, { photos: [{ full, thumb }] })));
    } catch (fault) {
      if (!(fault instanceof NoPicture)) throw fault;
      problem.value = t.unreadable;
    } finally {
      working.value = false;
    }
  };
  const impossible = canKeepPhotos() ? (enough ? t.enough : "") : t.insecure;
  return (
    <Page title={text.notes.add.photo} back={href("notes")}>
      {impossible ? (
        <p class="notice">{impossible}</p>
      ) : (
        <label class="button primary file" for={id}>
          <Camera /> {working.value ? t.shrinking : t.take}
          <input
            id={id}
            type="file"
            accept="image/*"
            disabled={working.value}
            onChange={({ currentTarget }) => {
              const file = currentTarget.files?.[0];
              if (file) take(file);
              currentTarget.value = "";
            }}
          />
        </label>
      )}
      <p class="field-trouble" role="alert">
        {problem.value}
      </p>
    </Page>
  );
}
