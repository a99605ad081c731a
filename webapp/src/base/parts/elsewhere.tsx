/** The page is open inside another app, which keeps nothing: the way to the phone's own browser. */
import { forBrowser, platform } from "../phone/platform";
import { text } from "../text/text";
import { Address } from "./address";
import { Notice } from "./notice";

/** url is where to go on there. */
export function Elsewhere({ url }: { url: string }) {
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
