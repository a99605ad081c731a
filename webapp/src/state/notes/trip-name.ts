/** What a trip is called: its own name, or its day; and where it goes. */

import { apart } from "../../base/text/apart";
import { text } from "../../base/text/text";
import { day } from "../../base/units/when";
import type { Summary } from "../log/summary";

export const tripName = ({ name, ground, opened, first }: Summary): string =>
  first === null
    ? text.notes.unreadableTrip
    : [name || text.notes.tripOf(day(opened)), ground].filter(Boolean).map(apart).join(" · ");
