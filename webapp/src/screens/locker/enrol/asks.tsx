/** Who asks to come aboard, on a phone that may say yes. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Told } from "../../../base/parts/around";
import { Down } from "../../../base/parts/icons";
import { Choices } from "../../../base/parts/input/choices";
import { Pick } from "../../../base/parts/input/pick";
import { TextField } from "../../../base/parts/input/text-field";
import { Act, Notice } from "../../../base/parts/notice";
import { once } from "../../../base/shell/guard";
import { go, href, route } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { answered, asks, declineAll, lookAtAsks, showAsks } from "../../../state/enrol/asks";
import {
  type Asks as Asked,
  decline,
  lookWhoAsks,
  unblock,
  type Waiting,
  welcome,
} from "../../../state/enrol/server";
import { running } from "../../../state/log/log";
import { AskingState, useAsking } from "./asking";
import { guestTripName, guestTrips } from "./guest-trips";
import { roleName } from "./role";

const t = text.enrol.waiting;

/** Wherever the skipper is in the app: somebody stands there and waits. */
export function asksTold(): Told | undefined {
  const open = asks.value.asks.filter(({ role }) => !role);
  const [first] = open;
  if (!first || route.value.join("/") === "enrol/invite") return undefined;
  const short = open.length === 1 ? t.some(first.name, first.word) : t.many(open.length);
  return {
    short,
    whole: (
      <Notice key="asks" actions={<Act onTap={() => go("enrol", "invite")}>{t.look}</Act>}>
        {short}
      </Notice>
    ),
  };
}

/** So many who ask are shown at a time: strangers shall not bury the one who stands there. */
const most = 6;

export function Asks() {
  useEffect(showAsks, []);
  const shown = useSignal(most);
  const { asks: all, more: unseen, blocked } = asks.value;
  const open = all.filter(({ role }) => !role);
  const more = open.length - shown.value;
  return (
    <>
      {all.map((one) => one.role && <Said key={one.device} one={one} />)}
      {open.slice(0, shown.value).map((one) => (
        <One key={one.device} one={one} />
      ))}
      {more > 0 && (
        <button type="button" class="button" onClick={() => (shown.value += most)}>
          {t.more(more)} <Down />
        </button>
      )}
      {unseen > 0 && <ByWord count={unseen} />}
      {open.length > 1 && <NoToAll these={open} />}
      {blocked > 0 && <Blocked count={blocked} />}
    </>
  );
}

/** Where more wait than are listed, the phone that stands there is found by its word, whether it is listed or not. */
function ByWord({ count }: { count: number }) {
  const word = useSignal("");
  const asking = useAsking<Asked>();
  const look = () => asking.ask(() => lookWhoAsks(word.value.trim().toLowerCase()));
  const found = asking.answer.value?.asks.filter(({ role }) => !role);
  // Answered, it is told above with the others.
  const done = () => {
    word.value = "";
    asking.answer.value = undefined;
    lookAtAsks();
  };
  return (
    <section class="ask">
      <p>{t.unseen(count)}</p>
      <TextField
        label={t.word}
        value={word.value}
        most={40}
        pause={0}
        onText={(typed) => {
          word.value = typed;
          asking.answer.value = undefined;
        }}
        problem={found?.length === 0 ? t.noWord : undefined}
      />
      {word.value.trim() && <Act onTap={look}>{t.look}</Act>}
      <AskingState of={asking} />
      {found?.map((one) => (
        <One key={one.device} one={one} onSaid={done} />
      ))}
    </section>
  );
}

function One({ one, onSaid }: { one: Waiting; onSaid?: () => void }) {
  const role = useSignal<"guest" | "mate">("guest");
  const trip = useSignal(running.value?.trip ?? guestTrips.value[0]?.trip);
  const asking = useAsking<Waiting>();
  const say = (what: () => Promise<Waiting>) =>
    asking.ask(what).then((said) => {
      if (!said) return;
      answered(said);
      onSaid?.();
    });
  const guest = role.value === "guest";
  return (
    <section class="ask">
      <h2>{t.title(one.name)}</h2>
      <p>{t.compare}</p>
      <p class="huge code">{one.word}</p>
      <Choices<"guest" | "mate">
        label={t.as}
        choices={(["guest", "mate"] as const).map((value) => ({ value, name: text.enrol.roles[value] }))}
        value={role.value}
        onChoose={(value) => {
          role.value = value;
        }}
      />
      {guest && guestTrips.value.length > 0 && (
        <Pick
          label={text.enrol.invitation.trip}
          options={guestTrips.value.map((one) => ({ id: one.trip, name: guestTripName(one) }))}
          value={trip.value ?? ""}
          onPick={(picked) => {
            trip.value = picked;
          }}
        />
      )}
      {guest && !trip.value ? (
        <p class="notice">
          {text.enrol.invitation.noTrip} <a href={href("notes")}>{text.places.notes}</a>
        </p>
      ) : (
        <button
          type="button"
          class="button primary"
          disabled={asking.working.value}
          onClick={once(() => say(() => welcome(one, role.value, guest ? trip.value : undefined)))}
        >
          {t.yes}
        </button>
      )}
      <div class="ask-no">
        <Act onTap={() => say(() => decline(one, false))}>{t.no}</Act>
        <Act onTap={() => say(() => decline(one, true))}>{t.block}</Act>
      </div>
      <p class="soft">{t.blockWhat}</p>
      <AskingState of={asking} />
    </section>
  );
}

function NoToAll({ these }: { these: Waiting[] }) {
  const asking = useAsking<void>();
  return (
    <section class="ask">
      <div class="ask-no">
        <Act onTap={() => asking.ask(() => declineAll(these))}>{t.noToAll(these.length)}</Act>
      </div>
      <AskingState of={asking} />
    </section>
  );
}

function Said({ one }: { one: Waiting }) {
  const asking = useAsking<Waiting>();
  return (
    <section class="ask">
      <p class="large-words">{t.told(one.name, roleName(one.role ?? ""))}</p>
      <Act onTap={() => asking.ask(() => decline(one, false)).then((said) => said && answered(said))}>
        {t.takeBack}
      </Act>
      <AskingState of={asking} />
    </section>
  );
}

function Blocked({ count }: { count: number }) {
  const asking = useAsking<void>();
  return (
    <section class="ask">
      <p>{t.blocked(count)}</p>
      <Act onTap={() => asking.ask(unblock).then(lookAtAsks)}>{t.unblock}</Act>
      <AskingState of={asking} />
    </section>
  );
}
