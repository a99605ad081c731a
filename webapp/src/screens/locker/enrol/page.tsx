/** Aboard: whether this phone exchanges its notes with the boat's server, and how to come to that. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { On } from "../../../base/parts/icons";
import { TextField } from "../../../base/parts/input/text-field";
import { Page } from "../../../base/parts/page";
import { installed } from "../../../base/phone/install";
import { platform } from "../../../base/phone/platform";
import { once } from "../../../base/shell/guard";
import { goInstead, href } from "../../../base/shell/route";
import { text } from "../../../base/text/text";
import { invitation } from "../../../state/enrol/arrive";
import { ask, asking as asked, giveUp } from "../../../state/enrol/ask";
import { enrol, lookWhoIAm } from "../../../state/enrol/join";
import { status } from "../../../state/exchange/exchange";
import type { You } from "../../../state/log/disk/db";
import { you } from "../../../state/log/log";
import { AskingState, useAsking } from "./asking";
import { AsksItself } from "./asks-itself";
import { roleName, roleWhat } from "./role";

const t = text.enrol;

export function EnrolPage() {
  // Who was shut out keeps its name, and is nobody's any more.
  const gone = you.value !== undefined && status.value.trouble === "stranger";
  const me = gone ? undefined : you.value;
  const again = useSignal(false);
  const waits = asked.value !== undefined && asked.value.over === undefined;
  useEffect(() => {
    if (!waits) return;
    const before = you.peek()?.device;
    return () => {
      // The yes has come: on by itself.
      const now = you.peek()?.device;
      if (!asked.peek() && now && now !== before) goInstead("locker", "ready", "first");
    };
  }, [waits]);
  return (
    <Page title={t.title} back={href("locker")}>
      {gone && (
        <div class="notice">
          <p>{t.gone}</p>
          <p>{t.goneWhat}</p>
        </div>
      )}
      {me && <Me me={me} />}
      {!isSecureContext ? (
        <>
          <p class="notice">{t.insecure}</p>
          <a class="button" href={href("locker", "ready")}>
            {text.notices.whatToDo} <On />
          </a>
        </>
      ) : !me || again.value || invitation.value || asked.value ? (
        <Coming
          onEnrolled={() => {
            again.value = false;
          }}
        />
      ) : (
        <>
          <a class="button primary" href={href("locker", "ready", "first")}>
            {t.on.ready} <On />
          </a>
          <button type="button" class="button" onClick={once(() => (again.value = true))}>
            {t.again}
          </button>
        </>
      )}
    </Page>
  );
}

function Me({ me }: { me: You }) {
  return (
    <>
      <p class="large-words">{t.iAm(me.name, roleName(me.role))}</p>
      <p>{roleWhat(me.role)}</p>
      {me.may.includes("invite") && (
        <ul class="links">
          <li>
            <a class="button" href={href("enrol", "invite")}>
              {t.invite} <On />
            </a>
          </li>
          <li>
            <a class="button" href={href("enrol", "phones")}>
              {t.phones} <On />
            </a>
          </li>
        </ul>
      )}
    </>
  );
}

const mostName = 40;

/** A name, and an invitation that was scanned or a code to type. */
function Coming({ onEnrolled }: { onEnrolled: () => void }) {
  const name = useSignal(you.value?.name ?? "");
  const code = useSignal("");
  const wrong = useSignal<"name" | "code" | undefined>(undefined);
  const asking = useAsking<unknown>();
  const scanned = invitation.value;
  const { value: trouble } = asking.trouble;
  const said = trouble?.kind === "said" ? trouble.code : undefined;
  const named = said === "name" ? t.named : said === "ours" ? t.ours : undefined;
  useEffect(() => {
    // From the home screen some phones start with an empty store, though the server knows them.
    if (!you.peek() && !invitation.peek() && installed()) asking.ask(lookWhoIAm);
  }, []);
  const come = async () => {
    wrong.value = !name.value.trim() ? "name" : !scanned && !/\w/.test(code.value) ? "code" : undefined;
    if (wrong.value) return;
    const by = scanned ? { invitation: scanned } : { code: code.value.trim() };
    const me = await asking.ask(() => enrol(by, name.value.trim()));
    if (!me) return;
    await giveUp();
    onEnrolled();
  };
  const askTheSkipper = async () => {
    wrong.value = name.value.trim() ? undefined : "name";
    if (!wrong.value) await asking.ask(() => ask(name.value.trim()));
  };
  if (asked.value && !scanned) return <AsksItself mine={asked.value} />;
  return (
    <>
      <p>{t.what}</p>
      <p>{t.whatGoes}</p>
      {scanned && <p class="large-words">{t.invited}</p>}
      <TextField
        label={t.yourName}
        hint={t.nameHint}
        value={name.value}
        most={mostName}
        pause={0}
        onText={(typed) => {
          name.value = typed;
          if (named) asking.trouble.value = undefined;
        }}
        problem={wrong.value === "name" ? t.needName : named}
      />
      {!scanned && (
        <>
          {platform() === "ios" && !installed() && (
            <div class="notice">
              <p>{t.asks.iosFirst}</p>
              <a class="button" href={href("locker", "install")}>
                {text.ready.install.title} <On />
              </a>
            </div>
          )}
          <p>{t.asks.what}</p>
          <button
            type="button"
            class="button primary"
            disabled={asking.working.value}
            onClick={once(askTheSkipper)}
          >
            {t.asks.ask}
          </button>
          <p class="soft">{t.left(2)}</p>
          <h2>{t.byCode}</h2>
          <p>{t.scan}</p>
        </>
      )}
      {!scanned && (
        <TextField
          label={t.code}
          hint={t.codeHint}
          value={code.value}
          most={20}
          pause={0}
          onText={(typed) => {
            code.value = typed;
          }}
          problem={wrong.value === "code" ? t.needCode : undefined}
        />
      )}
      <button
        type="button"
        class={scanned ? "button primary" : "button"}
        disabled={asking.working.value}
        onClick={once(come)}
      >
        {t.come}
      </button>
      {!named && <AskingState of={asking} />}
    </>
  );
}
