/** How much has not reached the boat's server, always on screen; one tap tells what to do about it. */

import { Check, Notes, On, Sent, Warning } from "../../base/parts/icons";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { age } from "../../base/units/show";
import { clock } from "../../base/units/when";
import { status } from "../../state/exchange/exchange";
import { countOf } from "../../state/log/disk/standing";
import { standing, summaries, you } from "../../state/log/log";
import { unwritten } from "../../state/log/waiting";

const t = text.exchange;

/** How many entries and photos of this phone the boat's server has not got, for whatever reason. */
export const unsentCount = (): number => (you.value ? countOf(standing.value) + unwritten.value : 0);

/** In short: “3 changes not sent”, of notes and of what was noted before. Only where nothing at all is left is everything sent. */
export function sendingWords(): string {
  const { unsent, refused, kept, held, photos, heldPhotos } = standing.value;
  if (!you.value) return t.here;
  const lost = photos.length + heldPhotos.length;
  const open = [
    unsent + unwritten.value > 0 && t.unsent(unsent + unwritten.value),
    held.length > 0 && t.held(held.length),
    lost > 0 && t.photosUnsent(lost),
    refused.length > 0 && t.refused(refused.length),
    kept.length > 0 && t.kept(kept.length),
  ].filter(Boolean);
  return open.length > 0 ? open.join(", ") : t.allSent;
}

/** Whether somebody should look: notes are kept from the server by more than distance. */
const troubled = () => {
  const { refused, held, heldPhotos } = standing.value;
  return refused.length + held.length + heldPhotos.length > 0 || status.value.trouble === "stranger";
};

export function Sending() {
  const { last } = status.value;
  const all = you.value && unsentCount() === 0;
  return (
    <a class={troubled() ? "sending open" : "sending"} href={href("notes", "unsent")}>
      {troubled() ? <Warning /> : all ? <Check /> : <Sent />}
      <span>
        {summaries.value && sendingWords()}
        {all && last !== undefined && ` ${clock(last)}`}
      </span>
      <On />
    </a>
  );
}

/** That this phone's clock is so many minutes off the server's, or more. */
export function ClockOff({ from }: { from: number }) {
  const { ahead = 0 } = status.value;
  if (!you.value || Math.abs(ahead) < from * 60_000) return null;
  return <p class="notice">{t.clock(ahead > 0 ? t.ahead(age(ahead)) : t.behind(age(-ahead)))}</p>;
}

/** The count at the foot of a page, where there is one. */
export function SendingAtFoot() {
  if (unsentCount() === 0) return null;
  return (
    <a class="button" href={href("notes", "unsent")}>
      {sendingWords()}
    </a>
  );
}

/** The mark of the place, with the count. */
export function NotesIcon() {
  const open = unsentCount();
  return (
    <span class="place-mark">
      <Notes />
      {open > 0 && (
        <span class="place-count">
          {open}
          <span class="visually-hidden"> {sendingWords()}</span>
        </span>
      )}
    </span>
  );
}
