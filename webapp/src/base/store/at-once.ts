/**
 * What is not on disk yet, in a place that keeps it at once: a page that goes away in the very moment of a tap takes
 * its unfinished transactions with it.
 */
const prefix = "wirewake-unwritten-";

/** Keeps it as JSON under this name, until it is dropped. */
export function keepAtOnce(name: string, value: unknown): void {
  try {
    localStorage.setItem(prefix + name, JSON.stringify(value));
  } catch {
    // No such place here, or no room in it: then it is on its way to the disk as ever.
  }
}

export function dropAtOnce(name: string): void {
  try {
    localStorage.removeItem(prefix + name);
  } catch {
    // Nothing was kept.
  }
}

/** What a page left behind under this name; undefined if nothing that can be read. */
export function leftAtOnce(name: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(prefix + name) ?? "") as unknown;
  } catch {
    return undefined;
  }
}

/** The names of this form under which pages left something behind, in their order. */
export function namesLeft(form: RegExp): string[] {
  try {
    return Object.keys(localStorage)
      .filter((key) => key.startsWith(prefix))
      .map((key) => key.slice(prefix.length))
      .filter((name) => form.test(name))
      .sort();
  } catch {
    return [];
  }
}
