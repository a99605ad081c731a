/** Where this phone is, by its own receiver. Nothing ever waits for it: there is the last good fix, or none. */

export interface Fix {
  /** Degrees, WGS 84. */
  lat: number;
  lon: number;
  /** m, radius of 68 % by the phone's own word. */
  accuracy: number;
  /** m/s and radians from true north, over the ground. */
  sog?: number;
  cog?: number;
}

let last: { fix: Fix; at: number } | undefined;
let watching: number | undefined;

/** A fix older than this, in ms, says nothing of where the boat is. */
const stale = 600_000;
/** Speed and course are of the moment. */
const fleeting = 15_000;

/** Follows the phone's receiver until told to stop; the browser asks the person the first time. */
export function watchPosition(): () => void {
  if (!navigator.geolocation || watching !== undefined) return () => undefined;
  watching = navigator.geolocation.watchPosition(take, () => undefined, {
    enableHighAccuracy: true,
    maximumAge: 5000,
  });
  return () => {
    if (watching !== undefined) navigator.geolocation.clearWatch(watching);
    watching = undefined;
  };
}

export function take({ coords }: Pick<GeolocationPosition, "coords">): void {
  const { latitude, longitude, accuracy, speed, heading } = coords;
  if (![latitude, longitude, accuracy].every(Number.isFinite)) return;
  const known = (value: number | null): value is number => value !== null && Number.isFinite(value);
  last = {
    at: performance.now(),
    fix: {
      lat: latitude,
      lon: longitude,
      accuracy,
      ...(known(speed) && { sog: speed }),
      ...(known(speed) && known(heading) && { cog: (heading * Math.PI) / 180 }),
    },
  };
}

/** The last good fix as fields of an entry; fixAge in s where it is not of this moment. */
export function position(): Partial<Fix> & { fixAge?: number } {
  const age = last ? performance.now() - last.at : Number.POSITIVE_INFINITY;
  if (!last || age > stale) return {};
  const { sog, cog, ...place } = last.fix;
  if (age > fleeting) return { ...place, fixAge: Math.round(age / 1000) };
  return { ...place, ...(sog !== undefined && { sog }), ...(cog !== undefined && { cog }) };
}
