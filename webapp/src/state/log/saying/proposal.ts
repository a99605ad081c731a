/** What a guest would have a record say that somebody else began: a record of its own, which the crew takes or leaves. */
import { faultOfFields, isSettled } from "../../entry/contract";
import type { Fields, Stored } from "../../entry/entry";
import type { Folded } from "../../entry/fold";
import { isCrews } from "../whose";

export interface Proposal {
  record: Folded;
  says: Fields;
  /** Who said so last. */
  from: Stored;
  /** The record could not hold it, or it is not to be proposed: nobody can take it. */
  unfit: boolean;
}

/** Those of a record that nobody has decided. */
export const proposalsFor = (of: Folded, records: Folded[]): Proposal[] =>
  records.flatMap((record) => {
    const { kind, struck, fields } = record;
    const { value: says, from } = fields.get("says") ?? {};
    if (kind !== "proposal" || struck || fields.get("of")?.value !== of.id) return [];
    return from && isFields(says) && !isDecided(record, from)
      ? [{ record, says, from, unfit: isUnfit(of.kind, says) }]
      : [];
  });

const isUnfit = (kind: string, says: Fields): boolean =>
  faultOfFields(kind, says) !== undefined || Object.keys(says).some((name) => isSettled(kind, name));

/** What was decided holds for what was read then, not for what was proposed since by who knew nothing of it. */
function isDecided({ entries }: Folded, says: Stored): boolean {
  const after = new Map<string, Stored[]>();
  for (const entry of entries) {
    for (const id of entry.prev) {
      const known = after.get(id);
      if (known) known.push(entry);
      else after.set(id, [entry]);
    }
  }
  const seen = new Set([says]);
  // A set goes on through what is added to it meanwhile.
  for (const entry of seen) for (const next of after.get(entry.id) ?? []) seen.add(next);
  return [...seen].some((entry) => decides(entry) !== undefined);
}

/** What an entry says of the proposal that it is of: only the crew's word decides. */
function decides(entry: Stored): boolean | undefined {
  const taken = entry.set?.taken;
  return typeof taken === "boolean" && isCrews(entry) ? taken : undefined;
}

export interface Decision {
  proposal: Folded;
  entry: Stored;
  taken: boolean;
}

/** What was decided of all that was proposed for a record: by several, where they did not know of each other. */
export const decisionsOf = (of: Folded, records: Folded[]): Decision[] =>
  records
    .filter(({ kind, fields }) => kind === "proposal" && fields.get("of")?.value === of.id)
    .flatMap((proposal) =>
      proposal.entries.flatMap((entry) => {
        const taken = decides(entry);
        return taken === undefined ? [] : [{ proposal, entry, taken }];
      }),
    );

/** This phone's own. */
export const proposalOf = (of: Folded, records: Folded[]): Folded | undefined =>
  proposalsFor(of, records).find(({ record }) => record.entries[0]?.own)?.record;

const isFields = (raw: unknown): raw is Fields =>
  typeof raw === "object" && raw !== null && !Array.isArray(raw);
