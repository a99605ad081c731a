/** A photo to note: made smaller on this phone, kept, and sent after the notes. */
import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import { Gone } from "../../base/parts/gone";
import { Camera } from "../../base/parts/icons";
import { Page } from "../../base/parts/page";
import { goInstead, href, leave } from "../../base/shell/route";
import { text } from "../../base/text/text";
import type { Folded } from "../../state/entry/fold";
import { ofKind, running } from "../../state/log/log";
import { recordHref, refer, useRecord, useTrip } from "../../state/log/refer";
import { create, offerUndoOf } from "../../state/notes/create";
import { kindName, recordWords } from "../../state/notes/words";
import { photoRoom } from "../../state/photos/of";
import { canKeepPhotos, NoPicture, shrink } from "../../state/photos/shrink";

const t = text.notes.photos;

/** Of what a note of the running trip tells, as of a fish; afterwards one is where one was. */
export function PhotoOfPage({ id }: { id: string }) {
  const record = useRecord(id);
  if (record === null) return <Gone back={href("notes")} />;
  return record ? <PhotoPage of={record} /> : <main class="page" />;
}

export function PhotoPage({ of }: { of?: Folded }) {
  useTrip((of ?? running.value)?.trip);
  const id = useId();
  const working = useSignal(false);
  const problem = useSignal("");
  const { most, full: enough } = photoRoom(ofKind("photo"));
  const take = async (file: File) => {
    working.value = true;
    problem.value = "";
    try {
      const { full, thumb, width, height } = await shrink(file);
      const { sha256, bytes } = full;
      const set = { sha256, bytes: bytes.byteLength, width, height, of: of?.id ?? null };
      const photo = create("photo", set, { photos: [{ full, thumb }] });
      if (!of) goInstead("notes", "told", refer(photo));
      else {
        offerUndoOf(photo);
        leave("notes", "record", refer(of));
      }
    } catch (fault) {
      if (!(fault instanceof NoPicture)) throw fault;
      problem.value = t.unreadable;
    } finally {
      working.value = false;
    }
  };
  const impossible = canKeepPhotos() ? (enough ? t.enough(most) : "") : t.insecure;
  return (
    <Page title={text.notes.add.photo} back={of ? recordHref(of) : href("notes")}>
      {of && (
        <p>
          <b>{kindName(of.kind)}</b> {recordWords(of)}
        </p>
      )}
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
