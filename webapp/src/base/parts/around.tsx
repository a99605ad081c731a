/** What the app puts on every page, and the pages know nothing of: told once, before the first paint. */
import { signal } from "@preact/signals";
import type { ComponentChildren, ComponentType } from "preact";

/** Something to be told: in one line, and whole, by a key that nothing else has. */
export interface Told {
  short: string;
  whole: ComponentChildren;
}

/** What a place has to tell itself, what matters most first; undefined: nothing. */
export type Own = () => (Told | undefined)[];

/** Alarms of the place on screen alone; they are told through the wet lock too. */
export const placeAlarms = signal<Told[]>([]);

interface Around {
  /** What the person has to be told, wherever they are, and in this place. */
  Notices: ComponentType<{ own?: Own | undefined }>;
  /** What must be in reach from every place: one tap for a hookup, one for a fish. */
  Quick: ComponentType<{ children?: ComponentChildren }>;
  /** Beside the way back at the foot of a page. */
  AtFoot: ComponentType;
}

const nothing = () => null;
let around: Around = { Notices: nothing, Quick: nothing, AtFoot: nothing };

export function setAround(all: Around): void {
  around = all;
}

export const Notices = ({ own }: { own?: Own | undefined }) => <around.Notices own={own} />;
export const Quick = ({ children }: { children?: ComponentChildren }) => (
  <around.Quick>{children}</around.Quick>
);
export const AtFoot = () => <around.AtFoot />;
