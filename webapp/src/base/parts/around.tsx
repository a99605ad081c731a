/** What the app puts on every page, and the pages know nothing of: told once, before the first paint. */
import type { ComponentType } from "preact";

interface Around {
  /** What the person has to be told, wherever they are. */
  Notices: ComponentType;
  /** Beside the way back at the foot of a page. */
  AtFoot: ComponentType;
}

const nothing = () => null;
let around: Around = { Notices: nothing, AtFoot: nothing };

export function setAround(all: Around): void {
  around = all;
}

export const Notices = () => <around.Notices />;
export const AtFoot = () => <around.AtFoot />;
