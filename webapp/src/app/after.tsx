/** All that comes after the first paint: what is kept going, what is told by it, and what its taps do. */
import { useEffect } from "preact/hooks";
import type { Told } from "../base/parts/around";
import { Warning } from "../base/parts/icons";
import { Act, Notice } from "../base/parts/notice";
import { useSeconds } from "../base/parts/seconds";
import { go, href, route } from "../base/shell/route";
import { soon } from "../base/shell/soon";
import { locked } from "../base/shell/wet-lock";
import { inTime } from "../base/store/kept";
import { type Tap, undone } from "../base/store/tapped";
import { text } from "../base/text/text";
import { age } from "../base/units/show";
import { instrumentAlarms } from "../screens/lines/heard/alarms";
import { RiseNotice } from "../screens/lines/rise/notice";
import { asksTold } from "../screens/locker/enrol/asks";
import { ClosedTrip, TwoTrips } from "../screens/notes/trips-open";
import type { Folded } from "../state/entry/fold";
import { fishUp } from "../state/fish/noting";
import { twoTrips } from "../state/log/asks";
import { refer } from "../state/log/refer";
import { closedTrip } from "../state/notes/closing";
import { createMark, offerUndoOf } from "../state/notes/create";
import { logRead, onceRead } from "../state/notes/search/reading";
import type { Moment } from "../state/overboard/moment";
import { calls, cry, foremost, open as overboard, sinceWent } from "../state/overboard/overboard";
import { touchesAhead, warning } from "../state/rise/watch";
import { inForce, speciesOf, watersNow } from "../state/rules/rules";
import { acceptUpdate, updateOffered } from "../state/update/offline";
import { begin as keepGoing, loadRest } from "./begin";

export { NotesIcon, SendingAtFoot } from "../screens/notes/sending";
export { logRead } from "../state/notes/search/reading";
export { goOffline } from "../state/update/offline";
export { loadPages } from "./begin";

export const mark = ({ at, take }: Tap): Promise<void> =>
  onceRead("mark", () => take(() => go("notes", "told", refer(createMark(at)))) || go("notes"));

/** It is taken for what the rules of these waters name first: mostly that is what is fished for. */
const fishUpAt = (at: number, marks?: Folded[]) =>
  fishUp(speciesOf(inForce(), watersNow())[0] ?? "", at, marks);

export const up = ({ at, take }: Tap): Promise<void> =>
  onceRead("up", () => take(() => go("fish", "land", fishUpAt(at))) || go("fish"), loadRest());

export async function begin(): Promise<void> {
  await keepGoing();
  await doLeft();
}

/** What was tapped on a page that went away before it was done, or on this one before what does it had come. */
async function doLeft(): Promise<void> {
  await logRead();
  // Taps that wait for the same go first: they show what they note.
  await soon();
  const marks: Folded[] = [];
  const does = (what: string, at: number) => {
    if (what === "mark") {
      const noted = createMark(at);
      marks.push(noted);
      offerUndoOf(noted);
    } else fishUpAt(at, marks);
  };
  for (const { what, at, take } of undone()) {
    try {
      take(() => does(what, at));
    } catch (fault) {
      // It stays kept, and the others are done.
      reportError(fault);
    }
  }
}

/** So long at most a cry waits until it is known which trip runs, ms. */
const haste = 1000;

export async function cryOut(moment: Moment): Promise<void> {
  await inTime(haste, logRead()).catch(() => undefined);
  cry(moment);
  go("overboard");
}

export const isOverboard = (): boolean => overboard.value.length > 0;

/** Whether there is an alarm of these. */
export const isAlarmed = (): boolean => touchesAhead.value || instrumentAlarms().length > 0;

/** What weighs most first. */
export const alarms = (): Told[] => [
  ...(warning.value ? [{ short: text.alarms.said.rise, whole: <RiseNotice /> }] : []),
  ...instrumentAlarms(),
];

/** What is told before what a place tells itself. */
export const first = (): Told | undefined => asksTold();

/** What needs nothing done at once. */
export function canWait(): (Told | false)[] {
  const { short, update, loadUpdate } = text.notices;
  return [
    route.value[0] !== "notes" &&
      twoTrips.value !== undefined && { short: text.notes.trips.twoShort, whole: <TwoTrips key="two" /> },
    route.value[0] !== "notes" &&
      closedTrip.value !== undefined && {
        short: text.notes.trips.closedShort,
        whole: <ClosedTrip key="closed" />,
      },
    updateOffered.value && {
      short: short.update,
      whole: (
        <Notice key="update" actions={<Act onTap={acceptUpdate}>{loadUpdate}</Act>}>
          {update}
        </Notice>
      ),
    },
  ];
}

/** Under the frame's head on every other page while a case is open. */
export const OverboardAlarm = () => (foremost.value && route.value[0] !== "overboard" ? <Overboard /> : null);

/** The phone shakes, where it can, when it first hears of it. */
function Overboard() {
  useSeconds();
  useEffect(() => {
    // Before the first touch of a page browsers do not let it, and complain.
    if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.([600, 200, 600, 200, 600]);
  }, []);
  const first = foremost.value;
  if (!first) return null;
  const t = text.alarms.overboard;
  return (
    <div class="overboard-alarm" role="alert">
      <a class="overboard-bar" href={href("overboard")} onClick={() => (locked.value = false)}>
        <Warning />
        <span>
          {t.what}{" "}
          <small>
            {t.since(age(sinceWent(first)))}
            {calls.value.length > 1 && `, ${t.several(calls.value.length)}`}
          </small>
        </span>
        <b>{t.show}</b>
      </a>
    </div>
  );
}
