/** What a trip is called: its own name, or its day; and where it goes. */
import type { Summary } from "../log/summary";
import { text } from "../text/text";
import { day } from "./when";

export const tripName = ({ name, ground, opened }: Summary): string =>
  [name || text.notes.tripOf(day(opened)), ground].filter(Boolean).join(" · ");
