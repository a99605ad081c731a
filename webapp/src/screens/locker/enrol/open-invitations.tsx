/** The invitations that still let phones aboard, and the way to end one: whoever has a link can come back by it. */
import { useEffect } from "preact/hooks";
import { Act } from "../../../base/parts/notice";
import { text } from "../../../base/text/text";
import { moment } from "../../../base/units/when";
import { endInvitation, type OpenInvitation, openInvitations } from "../../../state/enrol/server";
import { summaries } from "../../../state/log/log";
import { tripName } from "../../../state/notes/trip-name";
import { AskingState, useAsking } from "./asking";
import { roleName } from "./role";

const t = text.enrol.open;

interface Props {
  /** Whom it is about: a phone that was shut out, and by which of them it had come. */
  out?: { invited?: string | undefined };
}

export function OpenInvitations({ out }: Props) {
  const asking = useAsking<OpenInvitation[]>();
  useEffect(() => {
    asking.ask(openInvitations);
  }, []);
  const all = asking.answer.value;
  const endAll = async () => {
    let left = all;
    for (const { invitation } of all ?? []) left = await endInvitation(invitation);
    return left ?? [];
  };
  return (
    <section class="form">
      <h2>{t.title}</h2>
      <AskingState of={asking} />
      {all && <p>{all.length === 0 ? t.none : out ? t.mayComeBack(all.length) : t.what}</p>}
      <ul class="links">
        {all?.map((one) => (
          <li key={one.invitation} class="ask">
            <p>
              {wordsOf(one)}
              {out && one.invitation === out.invited && <b> {t.cameBy}</b>}
            </p>
            <Act onTap={() => asking.ask(() => endInvitation(one.invitation))}>{t.end}</Act>
          </li>
        ))}
      </ul>
      {all && all.length > 1 && <Act onTap={() => asking.ask(endAll)}>{t.endAll(all.length)}</Act>}
    </section>
  );
}

function wordsOf({ role, trip, made, maker, ends, uses }: OpenInvitation): string {
  const of = trip && summaries.value?.find((one) => one.trip === trip);
  return [
    roleName(role) + (of ? `, ${tripName(of)}` : ""),
    t.uses(uses),
    t.until(moment(ends)),
    made === null ? undefined : t.made(moment(made), maker),
  ]
    .filter(Boolean)
    .join(" · ");
}
