/** The one code that is enough for a phone that knows nothing of the boat yet: the same as on the placard. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Fingerprint } from "../../../base/parts/literal";
import { text } from "../../../base/text/text";
import { askWays, type Ways } from "../../../state/enrol/ways";

const t = text.enrol.oneCode;

export function OneCode() {
  const ways = useSignal<Ways | undefined>(undefined);
  useEffect(() => {
    askWays().then((found) => {
      ways.value = found;
    });
  }, []);
  const now = ways.value;
  if (!now) return <p>{t.away}</p>;
  // Where this phone has found the server others do, too.
  const way = [now.best, ...now.others].find(({ url }) => url === location.origin) ?? now.best;
  return (
    <section class="one-code">
      <h2>{t.title}</h2>
      {way.reach === "computer" && <p class="notice">{t.notForPhones}</p>}
      <p>{t.how}</p>
      <div class="qr-frame">
        <img class="qr" src={way.qr} alt={text.wayIn.code(way.enter)} />
      </div>
      <p class="address-text">{way.enter}</p>
      {now.boat && (
        <>
          <p>{t.fingerprint}</p>
          <Fingerprint of={now.boat.fingerprint} />
        </>
      )}
    </section>
  );
}
