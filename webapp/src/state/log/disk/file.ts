/**
 * Notes as a file, and back. The format is told in README.md beside this. A file is taken whole or not at
 * all: what it says may come from anybody.
 */
import { isPhoneName } from "../../entry/contract";
import {
  bytesOf,
  content,
  type Entry,
  held,
  isCount,
  type Stored,
  said,
  type Writer,
} from "../../entry/entry";
import { isUuid } from "../../entry/uuid";

const format = "wirewake-notes";
const version = 1;

/** Said in the file itself, and where it is saved: what it leaves out. */
const without = ["photos", "gear", "rigs", "settings"];

/** More than a season of notes; a larger file is something else. */
export const mostCharacters = 64 * 1024 * 1024;

/**
 * What can be handed on at all: an entry of any server, also one from before the contract, is smaller and flatter, and
 * no server reads what lies deeper.
 */
const mostBytes = 100_000;
const deepest = 5000;

export type Filed = Entry & Pick<Stored, "unreadable"> & Partial<Pick<Writer, "by" | "byName" | "mark">>;

/** Why a file is not taken. */
export type FileFault =
  | { code: "unreadable" | "other" | "newer" | "large" | "empty" }
  | { code: "entry"; place: number; fault: string };

export class Unfit extends Error {
  constructor(readonly why: FileFault) {
    super(why.code === "entry" ? `entry ${why.place} ${why.fault}` : why.code);
  }
}

/** Entries as a file, each with its writer and that one's mark as far as they are known. */
export function toFile(entries: Stored[], saved: number): string {
  const filed = entries.map((entry) => {
    const { by, byName, mark } = entry;
    return { ...said(entry), ...(by && byName && { by, byName }), ...(mark && { mark }) };
  });
  return JSON.stringify({ format, version, without, saved, entries: filed });
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
    const fault = faultOfFiled(one);
    if (fault) throw new Unfit({ code: "entry", place: i + 1, fault });
    const { by, byName, mark } = one;
    return {
      ...held(content(one)),
      ...(by && byName && { by, byName }),
      ...(by && byName && mark && { mark }),
    };
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

/** Level by level: what is deep must not be looked at deeply. */
function isDeep(raw: unknown): boolean {
  let level: unknown[] = [raw];
  for (let depth = 0; level.length > 0; depth++) {
    if (depth > deepest) return true;
    level = level.flatMap((one) => (typeof one === "object" && one !== null ? Object.values(one) : []));
  }
  return false;
}

/** Only what says what it is can be held; how it is read is another matter. */
function faultOfFiled(one: Filed): string | undefined {
  if (typeof one !== "object" || one === null) return "is not a record";
  if (isDeep(one)) return "has lists too deep in each other";
  if (bytesOf(one) > mostBytes) return "is far larger than a note";
  for (const name of ["id", "record", "trip"] as const)
    if (!isUuid(one[name])) return `has no UUID for ${name}`;
  const { by, byName, mark } = one;
  if (mark !== undefined && !(typeof mark === "string" && /^[\w-]{130}$/.test(mark)))
    return "has no mark that is one";
  if (by === undefined && byName === undefined) return undefined;
  return isUuid(by) && typeof byName === "string" && isPhoneName(byName)
    ? undefined
    : "does not say who wrote it";
}
