/**
 * Notes as a file, and back. The format is told in README.md beside this. A file is taken whole or not at
 * all: what it says may come from anybody.
 */
import { type Entry, faultOf, isCount, type Numbered, plain, type Stored } from "./entry";
import { isUuid } from "./uuid";

const format = "wirewake-notes";
const version = 1;

/** More than a season of notes; a larger file is something else. */
const mostCharacters = 64 * 1024 * 1024;

export type FiledEntry = Entry & Partial<Numbered>;

/** Why a file is not taken. */
export type FileFault =
  | { code: "unreadable" | "other" | "newer" | "large" | "empty" }
  | { code: "entry"; place: number; fault: string };

export class Unfit extends Error {
  constructor(readonly why: FileFault) {
    super(why.code === "entry" ? `entry ${why.place} ${why.fault}` : why.code);
  }
}

export function toFile(entries: Stored[], saved: number): string {
  return JSON.stringify({ format, version, saved, entries: entries.map(filed) }, null, 1);
}

function filed(entry: Stored): FiledEntry {
  const { no, by, byName } = entry;
  return { ...plain(entry), ...(no !== undefined && by !== undefined && { no, by, byName: byName ?? "" }) };
}

/** The entries of a file; throws Unfit. */
export function fromFile(text: string): FiledEntry[] {
  if (text.length > mostCharacters) throw new Unfit({ code: "large" });
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    throw new Unfit({ code: "unreadable" });
  }
  const file = (typeof raw === "object" && raw !== null ? raw : {}) as { [key: string]: unknown };
  if (file.format !== format || !isCount(file.version, 1)) throw new Unfit({ code: "other" });
  if (file.version > version) throw new Unfit({ code: "newer" });
  if (!Array.isArray(file.entries)) throw new Unfit({ code: "other" });
  if (file.entries.length === 0) throw new Unfit({ code: "empty" });
  return file.entries.map((one: unknown, i) => {
    const fault = faultOf(one) ?? faultOfNumber(one as FiledEntry);
    if (fault) throw new Unfit({ code: "entry", place: i + 1, fault });
    return filed(one as Stored);
  });
}

function faultOfNumber({ no, by, byName }: FiledEntry): string | undefined {
  if (no === undefined) return undefined;
  if (!isCount(no, 1)) return "no is not a count from 1";
  if (!isWriter(by)) return "by is not a phone";
  if (typeof byName !== "string" || byName.length > 200) return "byName is not a short text";
  return undefined;
}

/** The server's name for a phone. */
const isWriter = (raw: unknown): raw is string => isUuid(raw) || (typeof raw === "string" && /^\w{1,64}$/.test(raw));
