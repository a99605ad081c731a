/** UUIDs of version 7 (RFC 9562). randomUUID is not there on pages that came by plain http. */

/** A new id: 48 bits of time, then random bits of the phone's own generator. */
export function uuid(now = Date.now()): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  new DataView(bytes.buffer).setUint16(0, Math.floor(now / 2 ** 32));
  new DataView(bytes.buffer).setUint32(2, now % 2 ** 32);
  bytes[6] = ((bytes[6] as number) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] as number) & 0x3f) | 0x80;
  const hex = Array.from(bytes, (b) => b.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

/** All zeros is none. */
export const isUuid = (raw: unknown): raw is string =>
  typeof raw === "string" && /^(?![0-]*$)[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/.test(raw);
