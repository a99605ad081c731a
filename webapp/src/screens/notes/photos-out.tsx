/** Photos that did not get to the server when they were last tried, and why. */
import { useEffect, useState } from "preact/hooks";
import { On } from "../../base/parts/icons";
import { text } from "../../base/text/text";
import { moment } from "../../base/units/when";
import { type Folded, foldAll } from "../../state/entry/fold";
import type { Shipment } from "../../state/log/disk/db";
import { book, standing } from "../../state/log/log";
import { recordHref } from "../../state/log/refer";
import { kindName, recordWords, timeOf } from "../../state/notes/words";
import { Thumb } from "./show";

const t = text.exchange;

/** Of many the first few say it all. */
const most = 20;

export function PhotosOut() {
  const failed = standing.value.photos.filter(({ why }) => why !== undefined);
  const records = usePhotoRecords(failed.length > 0);
  if (failed.length === 0) return null;
  return (
    <>
      <h2>{t.photosTitle}</h2>
      <p>{t.photosPassed}</p>
      {failed.slice(0, most).map((photo) => (
        <PhotoOut key={photo.sha256} photo={photo} record={records.get(photo.sha256)} />
      ))}
    </>
  );
}

function PhotoOut({ photo: { sha256, why = "" }, record }: { photo: Shipment; record: Folded | undefined }) {
  const words = record ? recordWords(record) : "";
  return (
    <div class="notice">
      <div class="photo-out">
        <Thumb sha256={sha256} alt="" />
        <p>
          <b>
            {kindName("photo")} {record && moment(timeOf(record))}
          </b>{" "}
          {words}
        </p>
      </div>
      <p>{t.photoWhy[why] ?? t.photoOther}</p>
      {record && (
        <a class="button" href={recordHref(record)}>
          {t.look} <On />
        </a>
      )}
    </div>
  );
}

/** The records of photos by the hash of the picture. */
function usePhotoRecords(needed: boolean): Map<unknown, Folded> {
  const [records, setRecords] = useState(new Map<unknown, Folded>());
  useEffect(() => {
    if (!needed) return;
    const read = async () => {
      const all = foldAll(await book.entriesOfKinds(["photo"]));
      setRecords(new Map(all.map((record) => [record.fields.get("sha256")?.value, record])));
    };
    read().catch(() => undefined);
  }, [needed]);
  return records;
}
