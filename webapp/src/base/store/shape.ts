/**
 * Checks of data from outside: what was written by an older version, another phone or hand, a failing disk or another
 * server is not trusted. What an entry of the log may hold besides is told in state/entry/contract.ts.
 */

export class Misshapen extends Error {}

/** Reads unknown data as a T, or throws Misshapen. Parts it could do without go to spoilt, as they were. */
export type Shape<T> = (raw: unknown, spoilt: (raw: unknown) => void) => T;

export const number: Shape<number> = (raw) => {
  if (typeof raw !== "number" || !Number.isFinite(raw)) throw new Misshapen("not a number");
  return raw;
};

/** A number within limits, such as the desk's. */
export const within =
  ({ min, max }: { min: number; max: number }): Shape<number> =>
  (raw, spoilt) => {
    const read = number(raw, spoilt);
    if (read < min || read > max) throw new Misshapen("out of its limits");
    return read;
  };

/** A whole number, from a least one to a most. */
export const whole =
  (min: number, max = Number.MAX_SAFE_INTEGER): Shape<number> =>
  (raw) => {
    if (!Number.isSafeInteger(raw) || (raw as number) < min || (raw as number) > max)
      throw new Misshapen(`no whole number from ${min}`);
    return raw as number;
  };

export const flag: Shape<boolean> = (raw) => {
  if (typeof raw !== "boolean") throw new Misshapen("not yes or no");
  return raw;
};

/** A text of at most so many characters. */
export const wordsUpTo =
  (most: number): Shape<string> =>
  (raw) => {
    if (typeof raw !== "string" || raw.length > most) throw new Misshapen("not a short text");
    return raw;
  };

/** More than any name needs. */
export const words: Shape<string> = wordsUpTo(200);

/** A text of a certain form. */
export const formed =
  (form: RegExp): Shape<string> =>
  (raw) => {
    if (typeof raw !== "string" || !form.test(raw)) throw new Misshapen(`not of the form ${form.source}`);
    return raw;
  };

export const oneOf =
  <T extends string>(...choices: readonly T[]): Shape<T> =>
  (raw) => {
    if (!choices.includes(raw as T)) throw new Misshapen("not one of the choices");
    return raw as T;
  };

export const orNone =
  <T>(shape: Shape<T>): Shape<T | null> =>
  (raw, spoilt) =>
    raw === null ? null : shape(raw, spoilt);

/** What may not be told at all. */
export const maybe =
  <T>(shape: Shape<T>): Shape<T | undefined> =>
  (raw, spoilt) =>
    raw === undefined ? undefined : shape(raw, spoilt);

/** A list of at most `most` items, all of them sound. */
export const all =
  <T>(item: Shape<T>, most: number): Shape<T[]> =>
  (raw, spoilt) => {
    if (!Array.isArray(raw) || raw.length > most) throw new Misshapen("no list, or too long");
    return raw.map((one: unknown) => item(one, spoilt));
  };

/** A list of at most `most` items. A bad item does not take the good ones with it. */
export const list =
  <T>(item: Shape<T>, most: number): Shape<T[]> =>
  (raw, spoilt) => {
    if (!Array.isArray(raw)) throw new Misshapen("not a list");
    return raw.flatMap((one: unknown, i) => {
      try {
        if (i >= most) throw new Misshapen("too many");
        return [item(one, spoilt)];
      } catch {
        spoilt(one);
        return [];
      }
    });
  };

/**
 * Only the named fields are taken over, so nothing else can ride along. Fields that came with a later version
 * are given what stands for them where an earlier one wrote none.
 */
export const record =
  <T extends object>(fields: { [K in keyof T]: Shape<T[K]> }, later: Partial<NoInfer<T>> = {}): Shape<T> =>
  (raw, spoilt) => {
    if (typeof raw !== "object" || raw === null) throw new Misshapen("not a record");
    const out = {} as T;
    for (const key of Object.keys(fields) as (keyof T & string)[]) {
      const from = Object.hasOwn(raw, key) ? raw : later;
      if (!Object.hasOwn(from, key)) throw new Misshapen(`${key} is missing`);
      out[key] = fields[key]((from as T)[key], spoilt);
    }
    return out;
  };

/** Reads data of which all must be sound, or throws Misshapen. */
export const sound = <T>(shape: Shape<T>, raw: unknown): T =>
  shape(raw, () => {
    throw new Misshapen("a part of it is not sound");
  });
