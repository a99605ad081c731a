/** Bringing the app to the home screen, where the browser offers it. */
import { signal } from "@preact/signals";

interface InstallEvent extends Event {
  prompt(): Promise<unknown>;
}

/** Opens the browser's own question; undefined while it offers none. */
export const installOffer = signal<(() => void) | undefined>(undefined);

addEventListener("beforeinstallprompt", (event) => {
  event.preventDefault();
  installOffer.value = () => {
    installOffer.value = undefined;
    (event as InstallEvent).prompt();
  };
});

export const installed = (): boolean =>
  matchMedia("(display-mode: standalone), (display-mode: fullscreen)").matches ||
  (navigator as { standalone?: boolean }).standalone === true;
