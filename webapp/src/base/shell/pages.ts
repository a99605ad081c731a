/** The pages behind the places, by the parts of their address; “:id” stands for any one part. */
import { computed } from "@preact/signals";
import type { ComponentType } from "preact";
import { route } from "./route";

export interface AppPage {
  path: string;
  /** Something is typed here that loading a new version would lose. */
  form?: boolean;
  show: ComponentType<{ id: string }>;
}

let pages: AppPage[] = [];

/** Called once at start with all pages; they know of each other only by address. */
export function setPages(all: AppPage[]): void {
  pages = all;
}

export interface Found {
  page: AppPage;
  id: string;
}

export function find(parts: string[]): Found | undefined {
  for (const page of pages) {
    const pattern = page.path.split("/");
    if (pattern.length !== parts.length) continue;
    if (pattern.every((part, i) => part.startsWith(":") || part === parts[i])) {
      return { page, id: parts[pattern.findIndex((part) => part.startsWith(":"))] ?? "" };
    }
  }
  return undefined;
}

export const formOpen = computed(() => find(route.value)?.page.form === true);
