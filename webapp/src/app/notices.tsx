/**
 * What the person has to be told, wherever they are, in one area above the deck: alarms first and always; then one thing
 * whole, which is what was just done with the way back, or what else matters most; then in one line all the rest.
 */
import { effect, signal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import { desk } from "../base/desk/desk";
import { type Own, placeAlarms, type Told } from "../base/parts/around";
import { Aside } from "../base/parts/aside";
import { NotHere } from "../base/parts/come/later";
import { Down, On, Undo } from "../base/parts/icons";
import { Act, Beside, Notice, Whole } from "../base/parts/notice";
import { useSeconds } from "../base/parts/seconds";
import { insideAnotherApp } from "../base/phone/platform";
import { once } from "../base/shell/guard";
import { href, route } from "../base/shell/route";
import { announcing, isEarlier, placeLeft, showUndo, undoable } from "../base/shell/undo";
import { locked } from "../base/shell/wet-lock";
import { noted, storageTroubles, troubled } from "../base/store/kept";
import { text } from "../base/text/text";
import { clock } from "../base/units/when";
import { invitation } from "../state/enrol/arrive";
import { after, stayedAway } from "./come";
import { locker } from "./rooms";

const t = text.notices;

const Elsewhere = locker((room) => room.Elsewhere);
const isElsewhere = insideAnotherApp();

/** Whether what can wait is shown whole. */
const open = signal(false);

let place = route.value[0];
effect(() => {
  if (route.value[0] === place) return;
  place = route.value[0];
  placeLeft();
  open.value = false;
});

/** Somebody is overboard, or needs help: what nobody must know now is told after it. */
const isEmergency = () =>
  after.value?.isOverboard() || route.value[0] === "overboard" || route.value[0] === "help";

export function Notices({ own }: { own?: Own | undefined }) {
  useSeconds();
  const calm = !isEmergency();
  const told = calm ? [after.value?.first(), ...(own?.() ?? [])].filter((one) => one !== undefined) : [];
  const done = announcing.value ? undoable.value : undefined;
  // Beside an alarm all else is one line: what it is about stays in sight.
  const beside = alarmed();
  const first = done || beside ? undefined : told.shift();
  const waiting = calm ? [...told, ...canWait()] : [];
  return (
    <div class="notices">
      <Alarms />
      {first?.whole}
      {done && (
        <Notice key="done" done actions={<Act onTap={done.undo}>{t.undo}</Act>}>
          {isEarlier(done) && <b>{clock(done.at)}</b>} {!beside && done.more?.()} {done.what}{" "}
          {beside && done.more?.()}
        </Notice>
      )}
      {waiting.length > 0 && <Waiting of={waiting} />}
    </div>
  );
}

/** Whether there is an alarm that this area tells. */
const alarmed = () =>
  after.value?.isAlarmed() ||
  placeAlarms.value.length > 0 ||
  stayedAway.value ||
  desk.state.value === "stopped" ||
  storageTroubles.value.some(({ kind }) => kind === "unsaved");

/** Why something is not saved, each reason once: the storage is full, or something else. */
const unsaved = (): boolean[] => [
  ...new Set(storageTroubles.value.flatMap((trouble) => (trouble.kind === "unsaved" ? [trouble.full] : []))),
];

/** All that is told through the wet lock too, what weighs most first; no two have the same name. */
function alarms(): Told[] {
  return [
    ...(after.value?.alarms() ?? []),
    ...placeAlarms.value,
    ...(stayedAway.value ? [{ short: t.short.away, whole: <NotHere /> }] : []),
    ...(isElsewhere
      ? [
          {
            short: t.short.insecure,
            whole: (
              <Elsewhere
                url={`${location.origin}/${invitation.value ? `#join=${invitation.value}` : location.hash}`}
              />
            ),
          },
        ]
      : []),
    ...(desk.state.value === "stopped"
      ? [
          {
            short: t.short.stopped,
            whole: (
              <Notice alarm actions={<Act onTap={() => desk.start()}>{t.startAgain}</Act>}>
                {t.deskStopped}
              </Notice>
            ),
          },
        ]
      : []),
    ...unsaved().map((full) => ({
      short: full ? t.short.full : t.short.unsaved,
      whole: <Notice alarm>{t.storage.unsaved(full)}</Notice>,
    })),
  ];
}

/** The alarm that somebody has gone on to, and those that there were then: another that comes is told first. */
const gone = signal<{ to: string; of: string[] } | undefined>(undefined);

/** One alarm whole, with what is done about it; of more their names, and the next one tap away. */
export function Alarms() {
  useSeconds();
  const all = alarms();
  const names = all.map(({ short }) => short);
  const to = gone.value;
  const isAsked = to !== undefined && names.includes(to.to);
  // That it comes again nobody has asked for.
  useLayoutEffect(() => {
    if (!isAsked) gone.value = undefined;
  }, [isAsked]);
  const at = Math.max(0, to && names.every((name) => to.of.includes(name)) ? names.indexOf(to.to) : 0);
  const shown = all[at];
  if (!shown) return null;
  const next = names[(at + 1) % names.length] ?? "";
  return (
    <>
      <Beside.Provider
        key={shown.short}
        value={
          all.length > 1 && (
            <button
              type="button"
              class="button other-alarms"
              onClick={once(() => {
                gone.value = { to: next, of: names };
              }, 0)}
            >
              {t.nextAlarm(at + 1, all.length, next)} <On />
            </button>
          )
        }
      >
        <Whole.Provider value={shown.short === to?.to}>{shown.whole}</Whole.Provider>
      </Beside.Provider>
      {locked.value && all.length > 1 && (
        <p class="other-alarms">{t.otherAlarms(names.filter((name) => name !== shown.short))}</p>
      )}
    </>
  );
}

/** What needs nothing done at once. */
function canWait(): Told[] {
  const unopened = troubled("unopened");
  const all: (Told | false)[] = [
    desk.state.value === "restarted" && {
      short: t.short.restarted,
      whole: <Notice key="restarted">{t.deskRestarted}</Notice>,
    },
    unopened.length > 0 && {
      short: t.short.storage,
      whole: (
        <Notice key="unopened" actions={<Act onTap={() => noted("unopened")}>{t.noted}</Act>}>
          {t.storage.unopened(unopened)}
        </Notice>
      ),
    },
    ...(["unreadable", "early"] as const).map((kind) => {
      const names = troubled(kind);
      return (
        names.length > 0 && {
          short: kind === "early" ? t.short.early : t.short.storage,
          whole: <Aside key={kind} names={names} onNoted={() => noted(kind)} />,
        }
      );
    }),
    ...(after.value?.canWait() ?? []),
    !isSecureContext && {
      short: t.short.insecure,
      whole: (
        <Notice
          key="insecure"
          actions={
            <a class="button" href={href("locker", "ready")}>
              {t.whatToDo}
            </a>
          }
        >
          {t.insecure}
        </Notice>
      ),
    },
  ];
  return all.filter((told) => told !== false);
}

/** One line for all that can wait; a tap shows it whole. */
function Waiting({ of }: { of: Told[] }) {
  const [first] = of;
  const button = useRef<HTMLButtonElement>(null);
  // What was asked for comes into sight, where the area has no room for all that it holds.
  useLayoutEffect(() => {
    if (open.value) button.current?.scrollIntoView({ block: "nearest" });
  }, [open.value]);
  return (
    <>
      {open.value && <Whole.Provider value={true}>{of.map(({ whole }) => whole)}</Whole.Provider>}
      <button
        type="button"
        class="waiting"
        ref={button}
        aria-expanded={open.value}
        onClick={once(() => {
          open.value = !open.value;
        }, 0)}
      >
        <span>{open.value ? t.short.hide : t.short.more(first?.short ?? "", of.length - 1)}</span>
        {open.value ? <Down /> : <On />}
      </button>
    </>
  );
}

/** In the header: says again what can be taken back. */
export function UndoButton() {
  const last = announcing.value ? undefined : undoable.value;
  return (
    <button
      type="button"
      class="corner undo"
      disabled={!last}
      aria-label={last && `${t.undo}: ${last.what}`}
      onClick={once(showUndo, 0)}
    >
      <Undo />
      <span>{t.undo}</span>
    </button>
  );
}
