/** An address to read out, or to copy and open in another browser. */
import { useSignal } from "@preact/signals";
import { copy } from "../phone/copy";
import { text } from "../text/text";
import { Act } from "./notice";

export function Address({ url }: { url: string }) {
  const copied = useSignal(false);
  const t = text.ready.elsewhere;
  return (
    <div class="address">
      <p class="soft">{t.address}</p>
      <p class="address-text">{url}</p>
      <Act
        onTap={async () => {
          copied.value = await copy(url);
        }}
      >
        {copied.value ? t.copied : t.copy}
      </Act>
    </div>
  );
}
