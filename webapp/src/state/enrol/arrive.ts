/**
 * Takes an invitation out of the address, before anything else looks at it: the QR code leads to
 * “#join=INVITATION”, and whoever reads the address bar later must not find it there.
 */
import { signal } from "@preact/signals";

/** Kept only in memory; the code can be scanned again. */
export const invitation = signal<string | undefined>(undefined);

function take(): void {
  const [, found] = /^#join=([\w-]{16,64})(?:&root=[\da-f]{64})?$/.exec(location.hash) ?? [];
  if (!found) return;
  invitation.value = found;
  history.replaceState(history.state, "", "#/enrol");
}

take();
// The code may be scanned while the app is open in this tab. This listens before the app's own router does.
addEventListener("hashchange", take);
