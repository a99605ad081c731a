/** A trip in formats that any program reads, and a track from elsewhere into it. */
import { LoadFile } from "../../../base/parts/input/load-file";
import { Said, useSaving } from "../../../base/parts/input/save-file";
import { text } from "../../../base/text/text";
import type { Trip } from "../../../state/log/one";
import { formats, giveTrip } from "../../../state/out/formats";
import { loadTrack } from "../../../state/out/track";

const t = text.notes.formats;

export function TakeOut({ trip }: { trip: Trip }) {
  const { said, saving } = useSaving();
  return (
    <section>
      <h2>{t.title}</h2>
      <div class="take-out">
        {formats.map((format) => (
          <button key={format} type="button" class="button" onClick={saving(() => giveTrip(trip, format))}>
            {t[format]}
          </button>
        ))}
      </div>
      <Said of={said} />
      <LoadFile
        name={t.loadTrack}
        accept=".gpx,application/gpx+xml"
        onFile={(file) => loadTrack(file, trip)}
      />
    </section>
  );
}
