/** The pages behind the places, by the parts of their address; “:id” stands for any one part. */
import { computed } from "@preact/signals";
import type { ComponentType } from "preact";
import { route } from "./route";

export interface Screen {
  path: string;
  /** Something is typed here that loading a new version would lose. */
  form?: boolean;
  show: ComponentType<{ id: string }>;
}

let screens: Screen[] = [];

/** Called once at start with all pages; they know of each other only by address. */
export function setScreens(all: Screen[]): void {
  screens = all;
}

export interface Found {
  screen: Screen;
  id: string;
}

export function find(parts: string[]): Found | undefined {
  for (const screen of screens) {
    const pattern = screen.path.split("/");
    if (pattern.length !== parts.length) continue;
    if (pattern.every((part, i) => part.startsWith(":") || part === parts[i])) {
      return { screen, id: parts[pattern.findIndex((part) => part.startsWith(":"))] ?? "" };
    }
  }
  return undefined;
}

export const formOpen = computed(() => find(route.value)?.screen.form === true);
