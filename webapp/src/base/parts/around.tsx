/** What the app puts on every page, and the pages know nothing of: told once, before the first paint. */
import type { ComponentChildren, ComponentType } from "preact";

interface Around {
  /** What the person has to be told, wherever they are. */
  Notices: ComponentType;
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

export const Notices = () => <around.Notices />;
export const Quick = ({ children }: { children?: ComponentChildren }) => (
  <around.Quick>{children}</around.Quick>
);
export const AtFoot = () => <around.AtFoot />;
