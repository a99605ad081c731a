/** A newer version by hand: also where it is not offered, as while a trip runs. */
import { useSignal } from "@preact/signals";
import { Act } from "../../base/parts/notice";
import { text } from "../../base/text/text";
import { acceptUpdate, lookForNewer, newerReady } from "../../state/update/offline";

const t = text.about.version;

export function Version() {
  const found = useSignal<"looking" | "none" | "unreachable" | undefined>(undefined);
  const look = async () => {
    found.value = "looking";
    found.value = (await lookForNewer()) ? "none" : "unreachable";
  };
  return (
    <section>
      <h2>{t.title}</h2>
      {newerReady.value ? (
        <>
          <p role="status">{t.there}</p>
          <Act onTap={acceptUpdate}>{t.use}</Act>
        </>
      ) : (
        <>
          <p role="status">{found.value && t[found.value]}</p>
          <Act onTap={look}>{t.look}</Act>
        </>
      )}
    </section>
  );
}
