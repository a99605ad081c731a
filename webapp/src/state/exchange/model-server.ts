/** A small server of the exchange for the tests: server/sync/README.md in memory, and no more of it than they need. */

import { contract } from "../entry/contract.gen";
import { faultOf, type Numbered, type Stored, same, type Writer } from "../entry/entry";
import { foldAll } from "../entry/fold";
import type { You } from "../log/disk/db";
import { rootIn } from "../log/one";

interface Request {
  version: number;
  epoch: string;
  since: number;
  check: string;
  holds: number;
  entries: (Stored & Partial<Writer>)[];
}

export class ModelServer {
  log: Numbered[] = [];
  private epochs = 1;
  /** Numbers that its disk has spoilt. */
  readonly spoilt = new Set<number>();
  /** What each phone said last that it holds back. */
  readonly holds = new Map<string, number>();
  /** Answers carry at most so many entries. */
  page = 3;

  private checkOf(upto: number): string {
    return this.log
      .slice(0, upto)
      .map((entry) => entry.id.slice(-6))
      .join("");
  }

  private epochOf(you: You): string {
    return `e${this.epochs}.0.${you.may.includes("trips") ? "" : this.tripsOf(you).join()}`;
  }

  /** The trips that a guest sees: the one of the invitation, and those that were made one with it. */
  tripsOf(you: You): string[] {
    const said = foldAll(this.log.filter(({ kind }) => kind === "trip"));
    const into = new Map<string, string>();
    for (const { id, fields } of said) {
      const to = fields.get("into")?.value;
      if (typeof to === "string") into.set(id, to);
    }
    const own = you.trip ?? "";
    const all = [...into].flat().filter((trip) => rootIn(into, trip) === rootIn(into, own));
    return [...new Set([own, ...all])].sort();
  }

  /** The server is put back to a copy of so many entries; told: by the command that changes the epoch. */
  restore(entries: number, told: boolean): void {
    this.log = this.log.slice(0, entries);
    this.spoilt.clear();
    if (told) this.epochs++;
  }

  answer(you: You | undefined, body: string): Response {
    if (!you) return Response.json({ code: "aboard", text: "This phone is not aboard." }, { status: 401 });
    const request = JSON.parse(body) as Request;
    if (request.version !== 1) return Response.json({ code: "version" }, { status: 400 });
    this.holds.set(you.device, request.holds);
    const epoch = this.epochOf(you);
    const seen =
      request.epoch === epoch &&
      request.since <= this.log.length &&
      request.check === this.checkOf(request.since);
    // A phone that has seen what this file does not hold: the file is an older copy.
    if (!seen && request.epoch === epoch) this.epochs++;
    const since = seen ? request.since : 0;
    const taken: { id: string; no: number }[] = [];
    const refused: { index: number; id: string; code: string; why: string }[] = [];
    for (const [index, raw] of request.entries.entries()) {
      const code = this.take(raw, you);
      const had = this.log.find((entry) => entry.id === raw.id);
      if (code || !had) refused.push({ index, id: raw.id, code: code ?? "form", why: "Because." });
      else taken.push({ id: raw.id, no: had.no });
    }
    const after = this.log.slice(since);
    const page = after.slice(0, this.page);
    const upto = since + page.length;
    return Response.json({
      version: 1,
      epoch: this.epochOf(you),
      taken,
      refused,
      entries: page.filter(
        (entry) =>
          !this.spoilt.has(entry.no) &&
          this.sees(you, entry.trip) &&
          !taken.some(({ id }) => id === entry.id),
      ),
      upto,
      check: this.checkOf(upto),
      more: upto < this.log.length,
      spoilt: upto < this.log.length ? [] : [...this.spoilt],
      now: 0,
      you: you.may.includes("trips") ? you : { ...you, trips: this.tripsOf(you) },
      photos: { wanted: [] },
    });
  }

  private sees = (you: You, trip: string): boolean =>
    you.may.includes("trips") || this.tripsOf(you).includes(trip);

  private mayAmend({ kind, record, set, strike }: Stored, by: string, you: You): string | undefined {
    if (you.may.includes("crew")) return undefined;
    const fields = strike ? ["struck"] : Object.keys(set ?? {});
    if (by === you.device && fields.some((field) => field in (guarded[kind] ?? {}))) return "ends";
    const first = this.log.find((entry) => entry.record === record);
    return first && first.by !== by && !anybodys.includes(kind) ? "others" : undefined;
  }

  /** Numbers an entry, or says why not. */
  private take(raw: Stored & Partial<Writer>, you: You): string | undefined {
    if (faultOf(raw)) return "form";
    const { by, byName, mark, ...said } = raw;
    if (!this.sees(you, said.trip)) return "trip";
    const had = this.log.find((entry) => entry.id === said.id);
    if (had) {
      if (!same(statement(had), said)) return "clash";
      // Some phones have passed it over.
      if (this.spoilt.delete(had.no)) this.epochs++;
      return undefined;
    }
    const refusal = this.mayAmend(said, by ?? you.device, you);
    if (refusal) return refusal;
    const brought = by && byName && by !== you.device;
    const writer = brought
      ? { by: mark ? by : you.device, byName, via: you.device, viaName: you.name, ...(mark && { mark }) }
      : { by: you.device, byName: you.name, ...(mark && { mark }) };
    this.log.push({ ...said, ...writer, no: this.log.length + 1 });
    return undefined;
  }
}

const guarded: { [kind: string]: object } = contract.guarded;
const anybodys: readonly string[] = contract.anybodys;

function statement({
  no: _no,
  by: _by,
  byName: _name,
  via: _via,
  viaName: _viaName,
  mark: _mark,
  ...said
}: Numbered) {
  return said;
}
