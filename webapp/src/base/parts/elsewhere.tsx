/** The page is open inside another app, which keeps nothing: the way to the phone's own browser. */
import { forBrowser, insideAnotherApp, platform } from "../phone/platform";
import { text } from "../text/text";
import { Address } from "./address";
import { Notice } from "./notice";

const inside = insideAnotherApp();

/** url is where to go on there. */
export function Elsewhere({ url }: { url: string }) {
  if (!inside) return null;
  const t = text.ready.elsewhere;
  return (
    <Notice
      alarm
      actions={
        <>
          {platform() === "android" && (
            <a class="button" href={forBrowser(url)}>
              {t.open}
            </a>
          )}
          <Address url={url} />
        </>
      }
    >
      {t.what} {platform() !== "android" && t.how}
    </Notice>
  );
}
