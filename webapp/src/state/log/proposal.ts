/** What a guest would have a record say that somebody else began: a record of its own, which the crew takes or leaves. */
import type { Fields } from "../entry/entry";
import type { Folded } from "../entry/fold";

export interface Proposal {
  record: Folded;
  says: Fields;
}

/** Those of a record that nobody has decided. */
export const proposalsFor = (of: Folded, records: Folded[]): Proposal[] =>
  records.flatMap((record) => {
    const { kind, struck, fields } = record;
    const says = fields.get("says")?.value;
    const open = kind === "proposal" && !struck && typeof fields.get("taken")?.value !== "boolean";
    return open && fields.get("of")?.value === of.id && isFields(says) ? [{ record, says }] : [];
  });

/** This phone's own. */
export const proposalOf = (of: Folded, records: Folded[]): Folded | undefined =>
  proposalsFor(of, records).find(({ record }) => record.entries[0]?.own)?.record;

const isFields = (raw: unknown): raw is Fields =>
  typeof raw === "object" && raw !== null && !Array.isArray(raw);
