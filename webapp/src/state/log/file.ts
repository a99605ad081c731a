/**
 * Notes as a file, and back. The format is told in README.md beside this. A file is taken whole or not at
 * all: what it says may come from anybody.
 */
import { content, type Entry, faultOf, isCount, type Stored, type Writer } from "./entry";

const format = "wirewake-notes";
const version = 1;

/** More than a season of notes; a larger file is something else. */
const mostCharacters = 64 * 1024 * 1024;

export type Filed = Entry & Partial<Pick<Writer, "by" | "byName">>;

/** Why a file is not taken. */
export type FileFault =
  | { code: "unreadable" | "other" | "newer" | "large" | "empty" }
  | { code: "entry"; place: number; fault: string };

export class Unfit extends Error {
  constructor(readonly why: FileFault) {
    super(why.code === "entry" ? `entry ${why.place} ${why.fault}` : why.code);
  }
}

/** Entries as a file; who wrote those of this phone, if it is known to a server. */
export function toFile(entries: Stored[], saved: number, you?: { device: string; name: string }): string {
  const filed = entries.map((entry): Filed => {
    const by = entry.by ?? (entry.own && you?.device);
    const byName = entry.byName ?? (entry.own && you?.name);
    return { ...content(entry), ...(by && byName && { by, byName }) };
  });
  return JSON.stringify({ format, version, saved, entries: filed }, null, 1);
}

/** The entries of a file; throws Unfit. */
export function fromFile(text: string): Filed[] {
  if (text.length > mostCharacters) throw new Unfit({ code: "large" });
  const file = parsed(text);
  if (file.format !== format || !isCount(file.version, 1)) throw new Unfit({ code: "other" });
  if (file.version > version) throw new Unfit({ code: "newer" });
  if (!Array.isArray(file.entries)) throw new Unfit({ code: "other" });
  if (file.entries.length === 0) throw new Unfit({ code: "empty" });
  return file.entries.map((one: Filed, i) => {
    const fault = faultOf(one) ?? faultOfWriter(one);
    if (fault) throw new Unfit({ code: "entry", place: i + 1, fault });
    return { ...content(one), ...(one.by && one.byName && { by: one.by, byName: one.byName }) };
  });
}

function parsed(text: string): { [key: string]: unknown } {
  try {
    const raw: unknown = JSON.parse(text);
    return typeof raw === "object" && raw !== null ? { ...raw } : {};
  } catch {
    throw new Unfit({ code: "unreadable" });
  }
}

function faultOfWriter({ by, byName }: Filed): string | undefined {
  if (by === undefined && byName === undefined) return undefined;
  const short = (text: unknown, most: number) =>
    typeof text === "string" && text.length > 0 && text.length <= most;
  return short(by, 64) && short(byName, 40) ? undefined : "does not say who wrote it";
}
