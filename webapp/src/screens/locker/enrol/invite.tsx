/** The skipper invites: for whom, for how long, and the QR code and the code to say. */
import { useSignal } from "@preact/signals";
import { Choices } from "../../../base/parts/input/choices";
import { Pick } from "../../../base/parts/input/pick";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { moment } from "../../../base/units/when";
import { type Invitation, invite } from "../../../state/enrol/server";
import { type Role, rightsOf, roles } from "../../../state/entry/contract";
import { running, you } from "../../../state/log/log";
import { AskingState, useAsking } from "./asking";
import { Asks } from "./asks";
import { guestTripName, guestTrips } from "./guest-trips";
import { NotYours } from "./not-yours";
import { OneCode } from "./one-code";
import { OpenInvitations } from "./open-invitations";
import { roleName, roleWhat } from "./role";

const t = text.enrol.invitation;

type Hours = keyof typeof t.hoursOf;

export const InvitePage = () =>
  you.value?.may.includes("invite") ? <Inviting /> : <NotYours title={text.enrol.invite} />;

function Inviting() {
  const role = useSignal<Role>("mate");
  const hours = useSignal<Hours>("24");
  const uses = useSignal("1");
  const chosen = useSignal(running.value?.trip ?? guestTrips.value[0]?.trip ?? "");
  const asking = useAsking<Invitation>();
  const { answer } = asking;
  const oneTrip = !rightsOf(role.value).includes("trips");
  const tripless = oneTrip && !chosen.value;
  const make = () =>
    asking.ask(() =>
      invite({
        role: role.value,
        hours: Number(hours.value),
        uses: Number(uses.value),
        ...(oneTrip && { trip: chosen.value }),
      }),
    );
  if (answer.value)
    return (
      <Shown
        made={answer.value}
        uses={Number(uses.value)}
        onAnother={() => {
          answer.value = undefined;
        }}
      />
    );
  return (
    <Page title={text.enrol.invite} back={href("enrol")}>
      <Asks />
      <OneCode />
      <h2>{t.title}</h2>
      <p>{t.what}</p>
      <Choices<Role>
        label={t.role}
        choices={roles.map((value) => ({ value, name: roleName(value) }))}
        value={role.value}
        onChoose={(value) => {
          role.value = value;
        }}
      />
      <p>{roleWhat(role.value)}</p>
      {oneTrip && guestTrips.value.length > 0 && (
        <Pick
          label={t.trip}
          options={guestTrips.value.map((trip) => ({ id: trip.trip, name: guestTripName(trip) }))}
          value={chosen.value}
          onPick={(trip) => {
            chosen.value = trip;
          }}
        />
      )}
      <Choices<Hours>
        label={t.hours}
        choices={Object.entries(t.hoursOf).map(([value, name]) => ({ value: value as Hours, name }))}
        value={hours.value}
        onChoose={(value) => {
          hours.value = value;
        }}
      />
      <Choices
        label={t.uses}
        choices={["1", "2", "4", "6"].map((value) => ({ value, name: value }))}
        value={uses.value}
        onChoose={(value) => {
          uses.value = value;
        }}
      />
      {tripless ? (
        <p class="notice">{t.noTrip}</p>
      ) : (
        <button type="button" class="button primary" disabled={asking.working.value} onClick={once(make)}>
          {t.make}
        </button>
      )}
      <AskingState of={asking} />
      <OpenInvitations />
    </Page>
  );
}

function Shown({ made, uses, onAnother }: { made: Invitation; uses: number; onAnother: () => void }) {
  const { qr, code, codeEnds, ends } = made;
  return (
    <Page title={text.enrol.invite} back={href("enrol")}>
      <Asks />
      <p>{t.scan}</p>
      <div class="qr-frame">
        <img class="qr" src={`data:image/svg+xml,${encodeURIComponent(qr)}`} alt={t.qr} />
      </div>
      {code && (
        <>
          <p>{t.orCode}</p>
          <p class="huge code">{code}</p>
          <p>{codeEnds !== undefined && t.codeEnds(moment(codeEnds))}</p>
        </>
      )}
      <p>{t.ends(moment(ends), uses)}</p>
      <button type="button" class="button" onClick={once(onAnother)}>
        {t.another}
      </button>
    </Page>
  );
}
