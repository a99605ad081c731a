/** The phones aboard, on the skipper's: when each was last heard of, and the way to shut one out. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Facts } from "../../../base/parts/facts";
import { Down, On } from "../../../base/parts/icons";
import { Page } from "../../../base/parts/page";
import { once } from "../../../base/shell/guard";
import { href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { moment } from "../../../base/units/when";
import { type Device, devices, revoke } from "../../../state/enrol/server";
import { summaries, you } from "../../../state/log/log";
import { tripName } from "../../../state/notes/trip-name";
import type { CheckKey } from "../../../state/ready/checks";
import { AskingState, useAsking } from "./asking";
import { NotYours } from "./not-yours";
import { OpenInvitations } from "./open-invitations";
import { roleName } from "./role";

const t = text.enrol.phone;

const standingOf = (phone: Device): string =>
  [
    roleName(phone.role),
    phone.device === you.value?.device && t.you,
    phone.revoked !== null && t.out,
    phone.holds !== null && phone.holds > 0 && t.holds(phone.holds),
    phone.revoked === null && phone.ready && text.ready.summary(phone.ready.lacks.length),
    `${t.lastSeen}: ${phone.lastSeen === null ? t.never : moment(phone.lastSeen)}`,
  ]
    .filter(Boolean)
    .join(" · ");

const mayShutOut = () => you.value?.may.includes("phones");

export const PhonesPage = () => (mayShutOut() ? <Phones /> : <NotYours title={text.enrol.phones} />);

function Phones() {
  const asking = useAsking<Device[]>();
  const showingAll = useSignal(false);
  useEffect(() => {
    asking.ask(devices);
  }, []);
  const all = asking.answer.value ?? [];
  const inSight = all.filter((phone) => showingAll.value || isInSight(phone));
  const more = all.length - inSight.length;
  return (
    <Page title={text.enrol.phones} back={href("enrol")}>
      <AskingState of={asking} />
      <ul class="links">
        {inSight.map((phone) => (
          <li key={phone.device}>
            <a class="button" href={href("enrol", "phone", phone.device)}>
              <span>
                <span class={phone.revoked === null ? "" : "struck"}>{phone.name}</span>
                <small class="soft">{standingOf(phone)}</small>
              </span>
              <On />
            </a>
          </li>
        ))}
      </ul>
      {more > 0 && (
        <button type="button" class="button" onClick={once(() => (showingAll.value = true))}>
          {t.outs(more)} <Down />
        </button>
      )}
    </Page>
  );
}

/** One that was shut out, and perhaps came aboard anew since, is in nobody's way, unless it has something of the boat's. */
const isInSight = ({ revoked, holds, missing }: Device): boolean =>
  revoked === null || (holds ?? 0) > 0 || missing > 0;

export const PhonePage = ({ id }: { id: string }) =>
  mayShutOut() ? <Phone id={id} /> : <NotYours title={text.enrol.phones} />;

function Phone({ id }: { id: string }) {
  const asking = useAsking<Device[]>();
  useEffect(() => {
    asking.ask(devices);
  }, []);
  const phone = asking.answer.value?.find((one) => one.device === id);
  const shutOut = () =>
    asking.ask(async () => {
      const out = await revoke(id);
      return (asking.answer.value ?? []).map((one) => (one.device === id ? out : one));
    });
  return (
    <Page title={phone?.name ?? text.enrol.phones} back={href("enrol", "phones")}>
      <AskingState of={asking} />
      {phone && <PhoneFacts phone={phone} />}
      {phone && phone.revoked === null && phone.device !== you.value?.device && (
        <>
          <p>{t.shutOutWhat}</p>
          <button type="button" class="button" disabled={asking.working.value} onClick={once(shutOut)}>
            {t.shutOut}
          </button>
        </>
      )}
      {phone && phone.revoked !== null && you.value?.may.includes("invite") && (
        <OpenInvitations out={phone} />
      )}
    </Page>
  );
}

function PhoneFacts({ phone }: { phone: Device }) {
  const trip = summaries.value?.find((one) => one.trip === phone.trip);
  const facts: [string, string][] = [
    [t.role, roleName(phone.role)],
    [t.enrolled, moment(phone.enrolled)],
    [t.lastSeen, phone.lastSeen === null ? t.never : moment(phone.lastSeen)],
  ];
  const { ready } = phone;
  facts.push([t.ready, ready ? moment(ready.told) : t.never]);
  if (trip) facts.splice(1, 0, [t.trip, tripName(trip)]);
  if (phone.missing > 0) facts.push([t.missing, String(phone.missing)]);
  if (phone.holds !== null && phone.holds > 0) facts.push([t.holding, String(phone.holds)]);
  if (phone.revoked !== null) facts.push([t.outSince, moment(phone.revoked)]);
  return (
    <>
      <Facts of={facts} />
      {phone.holds !== null && phone.holds > 0 && <p class="notice">{t.holdsWhat}</p>}
      {ready && <p class="large-words">{text.ready.summary(ready.lacks.length)}</p>}
      {ready && ready.lacks.length > 0 && (
        <ul class="prose">
          {ready.lacks.map((key) => (
            <li key={key}>{text.ready.checks[key as CheckKey]?.name ?? key}</li>
          ))}
        </ul>
      )}
    </>
  );
}
