/** The page is open inside another app, which keeps nothing: the way to the phone's own browser. */
import { useSignal } from "@preact/signals";
import { Act, Notice } from "../../../base/parts/notice";
import { forBrowser, insideAnotherApp, platform } from "../../../base/phone/platform";
import { text } from "../../../base/text/text";
import { invitation } from "../../../state/enrol/arrive";

const inside = insideAnotherApp();

export function Elsewhere() {
  const copied = useSignal(false);
  if (!inside) return null;
  const t = text.ready.elsewhere;
  const url = `${location.origin}/${invitation.value ? `#join=${invitation.value}` : ""}`;
  const copy = async () => {
    await navigator.clipboard?.writeText(url).catch(() => undefined);
    copied.value = true;
  };
  return (
    <Notice
      alarm
      actions={
        platform() === "android" ? (
          <a class="button" href={forBrowser(url)}>
            {t.open}
          </a>
        ) : (
          <Act onTap={copy}>{copied.value ? t.copied : t.copy}</Act>
        )
      }
    >
      {t.what} {platform() !== "android" && t.how}
    </Notice>
  );
}
