/** Where in the app one is: the part of the address after “#/”. */
import { signal } from "@preact/signals";
import { screenChanged } from "./guard";

const read = () => location.hash.replace(/^#\/?/, "").split("/").filter(Boolean).map(decode);

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** The parts of the address: ["lines", "card", "3f…"]; none at the front door. */
export const route = signal<string[]>(read());

addEventListener("hashchange", () => {
  screenChanged();
  route.value = read();
});

export const go = (...parts: string[]): void => {
  location.hash = `#/${parts.map(encodeURIComponent).join("/")}`;
};

export const href = (...parts: string[]): string => `#/${parts.map(encodeURIComponent).join("/")}`;
