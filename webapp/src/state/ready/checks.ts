/** What this phone needs to work with no signal, looked at one by one. */
import { computed, signal } from "@preact/signals";
import { desk } from "../../base/desk/desk";
import { installed, installOffer } from "../../base/phone/install";
import { receiver, watchPosition } from "../../base/position/position";
import { go } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { numeral } from "../../base/units/show";
import { sound } from "../alarms/alarms";
import { mayChange } from "../crew/role";
import { hears } from "../instruments/heard";
import { taken } from "../instruments/taken";
import { controlled, kit } from "../update/offline";
import { rulesReady } from "./rules";

/** good: nothing to do. todo: something can be done. never: not on this phone or at this address. */
export type Standing = "good" | "todo" | "never";

export type CheckKey = keyof typeof text.ready.checks;

export interface Check {
  key: CheckKey;
  name: string;
  standing: Standing;
  /** What is so, and the one thing to do about it. */
  say: string;
  act?: { name: string; tap: () => void } | undefined;
}

/** Whether the browser has promised not to throw the storage away; undefined: it cannot say. */
export const persistent = signal<boolean | undefined>(undefined);

/** It was asked for that promise, and gave none. */
const persistRefused = signal(false);

/** Bytes that the app has taken, and may still take; undefined: the browser does not say. */
const room = signal<{ used: number; free: number } | undefined>(undefined);

/** Less room than this, in bytes, is soon filled by photos. */
const scarce = 100e6;

const megabytes = (bytes: number): string =>
  text.ready.megabytes(numeral(bytes / 1e6, bytes < 10e6 ? 0.1 : bytes < 1e9 ? 1 : 100));

export async function lookAtStorage(): Promise<void> {
  persistent.value = await navigator.storage?.persisted?.();
  const { quota, usage } = (await navigator.storage?.estimate?.()) ?? {};
  room.value = quota === undefined || usage === undefined ? undefined : { used: usage, free: quota - usage };
}

export async function askToPersist(): Promise<void> {
  persistent.value = await navigator.storage?.persist?.();
  persistRefused.value = persistent.value === false;
}

const tables = ["east", "west"].map((region) => `/tides/${region}.bin`);

/** Whether the tables of tide and current are kept on this phone; undefined: not looked yet. */
const tablesKept = signal<boolean | undefined>(undefined);

export async function lookAtTables(): Promise<void> {
  if (!("caches" in globalThis)) return;
  const kept = await Promise.all(tables.map((url) => caches.match(url))).catch(() => []);
  tablesKept.value = kept.length > 0 && kept.every(Boolean);
}

/** Any question about stations brings them, where the server is in reach. */
async function bringTables(): Promise<void> {
  await desk.ask("stations", { place: { lat: 0, lon: 0 }, kind: "tide", count: 1 }).catch(() => undefined);
  await lookAtTables();
}

/** Whether the app may know the position; undefined: the browser does not say before it is asked. */
const allowed = signal<PermissionState | undefined>(undefined);

const canLocate = () => isSecureContext && "geolocation" in navigator;

export async function lookAtPosition(): Promise<void> {
  const state = await navigator.permissions?.query({ name: "geolocation" }).catch(() => undefined);
  allowed.value = state?.state;
}

/** Asks for as long as a person may take to answer; the receiver is not kept on for it. */
function askForPosition(): void {
  const letGo = watchPosition();
  setTimeout(() => {
    letGo();
    lookAtPosition();
  }, 30_000);
}

/** The alarm was sounded here, and somebody has heard it: since the app was started, for the volume is turned by hand. */
const tried = signal(false);
const alarmHeard = signal(false);

function tryAlarm(): void {
  sound("rise");
  tried.value = true;
}

export const checks = computed<Check[]>(() => {
  const t = text.ready.checks;
  const secure = isSecureContext;
  const worker = "serviceWorker" in navigator;
  const whole = kit.value?.missing === 0;
  const refused = receiver.value === "refused" || allowed.value === "denied";
  const runs = desk.state.value === "ready" || desk.state.value === "restarted";
  const onHomeScreen = installed();
  const offer = installOffer.value;
  const check = (
    key: CheckKey,
    standing: Standing,
    act?: Check["act"],
    says: { [S in Standing]: string } = t[key] as { [S in Standing]: string },
  ): Check => ({
    key,
    name: t[key].name,
    standing,
    say: says[standing],
    act: standing === "todo" ? act : undefined,
  });
  const if_ = (good: boolean, otherwise: Standing): Standing => (good ? "good" : otherwise);
  return [
    check("secure", if_(secure, "never")),
    check("control", if_(controlled.value, worker ? "todo" : "never"), {
      name: t.control.act,
      tap: () => location.reload(),
    }),
    check("files", if_(whole, worker ? "todo" : "never")),
    check("tables", if_(tablesKept.value === true, worker ? "todo" : "never"), {
      name: t.tables.act,
      tap: bringTables,
    }),
    check("desk", if_(runs, desk.state.value === "stopped" ? "never" : "todo")),
    check(
      "storage",
      if_(persistent.value === true, persistent.value === false ? "todo" : "never"),
      { name: t.storage.act, tap: askToPersist },
      persistRefused.value ? { ...t.storage, todo: t.storage.refused } : t.storage,
    ),
    check("room", room.value ? if_(room.value.free > scarce, "todo") : "good", undefined, {
      good: room.value ? t.room.good(megabytes(room.value.used), megabytes(room.value.free)) : t.room.unknown,
      todo: room.value ? t.room.todo(megabytes(room.value.free)) : "",
      never: "",
    }),
    check(
      "install",
      if_(onHomeScreen, secure ? "todo" : "never"),
      offer
        ? { name: t.install.act, tap: offer }
        : { name: t.install.show, tap: () => go("locker", "install") },
    ),
    check(
      "position",
      receiver.value === "on" ? "good" : if_(allowed.value === "granted", canLocate() ? "todo" : "never"),
      { name: t.position.act, tap: askForPosition },
      refused ? { ...t.position, todo: t.position.refused } : t.position,
    ),
    check("wake", if_("wakeLock" in navigator, "never")),
    // Of a boat without instruments nothing sounds that is not looked at as well.
    ...(hears.value || taken.value.asked
      ? [
          check(
            "alarms",
            if_(alarmHeard.value, "todo"),
            tried.value
              ? { name: t.alarms.heard, tap: () => (alarmHeard.value = true) }
              : { name: t.alarms.act, tap: tryAlarm },
            { ...t.alarms, todo: tried.value ? t.alarms.tried : t.alarms.todo },
          ),
        ]
      : []),
    // A guest looks up nothing: that is the crew's.
    ...(mayChange()
      ? [
          check(
            "rules",
            if_(rulesReady.value === "good", "todo"),
            { name: t.rules.act, tap: () => go("fish", "rules") },
            { ...t.rules, todo: t.rules.todo[rulesReady.value ?? "good"] },
          ),
        ]
      : []),
  ];
});
