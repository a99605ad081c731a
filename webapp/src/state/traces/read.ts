/** Reads a file of what the instruments said on a trip, once a second, as far as it is whole: server/sync/traces/record.go. */

export interface Row {
  /** ms. */
  at: number;
  /**
   * Depth, speed through the water, heading, water, speed and course over ground, latitude and longitude; in SI, of angles
   * radians, of the water °C; undefined is what was not known.
   */
  values: (number | undefined)[];
}

const head = "wirewake trace 1\n";
const degree = Math.PI / 180;
/** In what steps the values are kept. */
const sizes = [0.01, 0.01, 0.1 * degree, 0.1, 0.01, 0.1 * degree, 1e-6 * degree, 1e-6 * degree];

/** CRC-32 (IEEE), the lower two bytes. */
function sum(bytes: Uint8Array): number {
  let crc = ~0;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return ~crc & 0xffff;
}

/** Takes numbers from a record; past its end they are none. */
class Taker {
  private at = 0;
  constructor(private readonly bytes: Uint8Array) {}
  byte = (): number => this.bytes[this.at++] ?? Number.NaN;
  unsigned(): number {
    let value = 0;
    for (let size = 1; ; size *= 128) {
      const byte = this.byte();
      value += (byte & 127) * size;
      if (!(byte > 127)) return Number.isNaN(byte) ? byte : value;
    }
  }
  signed(): number {
    const value = this.unsigned();
    return value % 2 === 0 ? value / 2 : -(value + 1) / 2;
  }
}

/** The rows of a file, the oldest first; undefined: it is none. */
export function readTrace(bytes: Uint8Array): Row[] | undefined {
  if (new TextDecoder("latin1").decode(bytes.subarray(0, head.length)) !== head) return undefined;
  const rows: Row[] = [];
  const last = sizes.map(() => 0);
  let at = 0;
  // After the head comes the trip's id.
  for (let from = head.length + 16; from < bytes.length; ) {
    const end = from + 1 + (bytes[from] ?? 0);
    const content = bytes.subarray(from + 1, end);
    if (end + 2 > bytes.length || sum(content) !== (bytes[end] ?? 0) + 256 * (bytes[end + 1] ?? 0)) break;
    const taker = new Taker(content);
    at += taker.unsigned();
    const there = taker.byte();
    const values = sizes.map((size, i) => {
      if (!((there >> i) & 1)) return undefined;
      const steps = (last[i] ?? 0) + taker.signed();
      last[i] = steps;
      return steps * size;
    });
    rows.push({ at: at * 1000, values });
    from = end + 2;
  }
  return rows;
}
