/** Where this phone is, by its own receiver. Nothing ever waits for it: there is the last good fix, or none. */
import { signal } from "@preact/signals";
import { type Moment, now, since } from "./moment";

export interface Fix {
  /** Degrees, WGS 84. */
  lat: number;
  lon: number;
  /** m, radius of 95 % by the phone's own word. */
  accuracy: number;
  /** m/s and radians from true north, over the ground. */
  sog?: number;
  cog?: number;
}

/** A fix with when it was taken. */
export interface Taken {
  fix: Fix;
  at: Moment;
}

/** resting: nobody asks it. asking: no fix yet. refused: the person or the phone said no. none: there is none here. */
export type Receiver = "resting" | "asking" | "refused" | "none" | "on";

export const receiver = signal<Receiver>("resting");
export const lastFix = signal<Taken | undefined>(undefined);

/** A fix older than this, in ms, says nothing of where the boat is. */
const stale = 600_000;
/** Speed and course are of the moment. */
export const fleeting = 15_000;

let watching: number | undefined;
/** The browser's word on the permission, where it gives one. */
let permission: PermissionStatus | undefined;
let watchers = 0;

/**
 * Follows the phone's receiver until every asker has let go of it; the browser asks the person the first time. Every
 * asker makes it try again, if it was refused before.
 */
export function watchPosition(): () => void {
  watchers++;
  if (watching === undefined || receiver.peek() === "refused") begin();
  let held = true;
  return () => {
    if (!held) return;
    held = false;
    if (--watchers === 0) end();
  };
}

function begin(): void {
  end();
  if (!navigator.geolocation || !isSecureContext) {
    receiver.value = "none";
    return;
  }
  receiver.value = "asking";
  watching = navigator.geolocation.watchPosition(take, failed, {
    enableHighAccuracy: true,
    maximumAge: 5000,
  });
}

/** A permission given later is used at once. */
async function heedPermission(): Promise<void> {
  permission ??= await navigator.permissions?.query({ name: "geolocation" }).catch(() => undefined);
  if (!permission) return;
  permission.onchange = () => {
    if (watchers > 0) begin();
  };
}

function end(): void {
  if (watching !== undefined) navigator.geolocation.clearWatch(watching);
  watching = undefined;
  receiver.value = "resting";
}

function failed({ code }: Pick<GeolocationPositionError, "code">): void {
  const denied = 1; // PERMISSION_DENIED
  if (code === denied) {
    receiver.value = "refused";
    heedPermission();
  } else if (receiver.peek() !== "on") receiver.value = "asking";
}

/** How far this phone's clock is ahead of the receiver's, at the least that was seen: the rest is a fix's age. */
let ahead = Number.POSITIVE_INFINITY;
let heard: Pick<GeolocationCoordinates, "latitude" | "longitude" | "speed" | "heading"> | undefined;
let newest = Number.NEGATIVE_INFINITY;

export function take({ coords, timestamp }: Pick<GeolocationPosition, "coords" | "timestamp">): void {
  const { latitude, longitude, accuracy, speed, heading } = coords;
  if (![latitude, longitude, accuracy, timestamp].every(Number.isFinite)) return;
  // The same fix handed out once more makes nothing younger; nor does one that says to move and does not.
  if (timestamp <= newest || frozen(coords)) return;
  newest = timestamp;
  ahead = Math.min(ahead, Date.now() - timestamp);
  const age = Date.now() - timestamp - ahead;
  const { wall, run } = now();
  const known = (value: number | null): value is number => value !== null && Number.isFinite(value);
  receiver.value = "on";
  lastFix.value = {
    at: { wall: wall - age, run: run - age },
    fix: {
      lat: latitude,
      lon: longitude,
      accuracy,
      ...(known(speed) && { sog: speed }),
      ...(known(speed) && known(heading) && { cog: (heading * Math.PI) / 180 }),
    },
  };
}

const frozen = ({ latitude, longitude, speed, heading }: GeolocationCoordinates): boolean => {
  const last = heard;
  heard = { latitude, longitude, speed, heading };
  return (
    speed !== null &&
    speed > 0 &&
    last?.latitude === latitude &&
    last.longitude === longitude &&
    last.speed === speed &&
    last.heading === heading
  );
};

/** Once, with the first fix that comes within so many ms from now. */
export function withNextFix(within: number, use: () => void): void {
  const had = lastFix.peek();
  const until = now().run + within;
  const stop = lastFix.subscribe((taken) => {
    if (taken === had) return;
    setTimeout(() => stop());
    if (now().run < until) use();
  });
}

/** The last good fix as fields of an entry; fixAge in s where it is not of this moment. */
export function position(): Partial<Fix> & { fixAge?: number } {
  const last = lastFix.peek();
  const age = last ? since(last.at) : Number.POSITIVE_INFINITY;
  if (!last || age > stale) return {};
  const { sog, cog, ...place } = last.fix;
  if (age > fleeting) return { ...place, fixAge: Math.round(age / 1000) };
  return { ...place, ...(sog !== undefined && { sog }), ...(cog !== undefined && { cog }) };
}
