/** A photo on screen: from this phone's disk, or fetched when the server is in reach. */
import { useEffect, useState } from "preact/hooks";
import type { Photo } from "../../state/log/disk/db";
import { book, you } from "../../state/log/log";
import { fetchPhoto } from "../../state/photos/photos";

interface Props {
  sha256: string;
  alt: string;
}

/** How long to wait before a photo is asked for again, ms: at first, and at most. */
const soon = 3000;
const seldom = 600_000;

/** The address of its bytes on this page; undefined while it is not there. */
function usePhoto(sha256: string, read: (sha256: string) => Promise<Photo | undefined>): string | undefined {
  const [url, setUrl] = useState<string>();
  useEffect(() => {
    let made: string | undefined;
    let gone = false;
    let wait = soon;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const bring = async () => {
      let photo = await read(sha256);
      if (!photo && you.peek() && (await fetchPhoto(sha256))) photo = await read(sha256);
      if (gone) return;
      if (!photo) {
        // The note of a photo is here before the photo is on the server.
        timer = setTimeout(() => bring().catch(() => undefined), wait);
        wait = Math.min(2 * wait, seldom);
        return;
      }
      made = URL.createObjectURL(new Blob([photo.bytes], { type: photo.type }));
      setUrl(made);
    };
    // What cannot be read now is tried again the next time it is shown.
    bring().catch(() => undefined);
    return () => {
      gone = true;
      clearTimeout(timer);
      if (made) URL.revokeObjectURL(made);
    };
  }, [sha256, read]);
  return url;
}

const readThumb = (sha256: string) => book.thumb(sha256);
const readPhoto = (sha256: string) => book.photo(sha256);

export function Thumb({ sha256, alt }: Props) {
  const url = usePhoto(sha256, readThumb);
  return <span class="thumb">{url && <img src={url} alt={alt} />}</span>;
}

interface WholeProps extends Props {
  missing: string;
  save: string;
  name: string;
}

/** The whole photo, and the way to save it. */
export function WholePhoto({ sha256, alt, missing, save, name }: WholeProps) {
  const url = usePhoto(sha256, readPhoto);
  if (!url) return <p>{missing}</p>;
  return (
    <>
      <span class="photo-frame">
        <img class="photo" src={url} alt={alt} />
      </span>
      <a class="button" href={url} download={name}>
        {save}
      </a>
    </>
  );
}
