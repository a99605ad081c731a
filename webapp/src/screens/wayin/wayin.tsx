/** The front door on a computer: the code for the phones to scan, and the app itself one tap away. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { On } from "../../base/parts/icons";
import { Fingerprint } from "../../base/parts/literal";
import { href } from "../../base/shell/route";
import { text } from "../../base/text/text";
import { askWays, type Ways } from "../../state/enrol/ways";

export function WayIn() {
  const ways = useSignal<Ways | undefined>(undefined);
  useEffect(() => {
    document.title = text.app.name;
    // Without the server there is nothing to scan; the app itself is here all the same.
    askWays().then((found) => {
      ways.value = found;
    });
  }, [ways]);
  const t = text.wayIn;
  const now = ways.value;
  // At an address of this computer only there is nothing to scan; the server's notes say what to do.
  const forPhones = now !== undefined && now.best.reach !== "computer";
  return (
    <main class="way-in">
      {now && forPhones && (
        <div class="way-in-code">
          <img src={now.best.qr} alt={t.code(now.best.enter)} width="420" height="420" />
          <p class="way-in-address">{now.best.enter}</p>
        </div>
      )}
      <div class="way-in-words">
        <h1>{text.app.name}</h1>
        <p>{text.app.description}</p>
        {forPhones && <p>{t.scan}</p>}
        {now?.boat && forPhones && (
          <>
            <p>{t.introduced(now.best.url)}</p>
            <p>{t.compare}</p>
            <Fingerprint of={now.boat.fingerprint} />
          </>
        )}
        {now && forPhones && !now.best.secure && <p class="notice">{t.insecure}</p>}
        {now?.notes.map((note) => (
          <p key={note} class="notice">
            {note}
          </p>
        ))}
        <a class="button primary" href={href("lines")}>
          {t.here} <On />
        </a>
        {now && now.others.length > 0 && (
          <>
            <h2>{t.others}</h2>
            <ul>
              {now.others.map((way) => (
                <li key={way.url}>{way.enter}</li>
              ))}
            </ul>
          </>
        )}
        {now?.earlier.map((old) => (
          <p key={old.url}>{t.earlier(old.url, old.keep)}</p>
        ))}
      </div>
    </main>
  );
}
