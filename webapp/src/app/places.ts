/** The places of the app, in the order of the bar. One line each; with one place there is no bar. */
import type { ComponentType } from "preact";
import { Crew, Fish, Lines, Pace } from "../base/parts/icons";
import { text } from "../base/text/text";
import { CrewScreen } from "../screens/crew/screen";
import { LockedBagStop } from "../screens/fish/parts/bag";
import { FishScreen } from "../screens/fish/screen";
import { LinesScreen } from "../screens/lines/screen";
import { NotesScreen } from "../screens/notes/screen";
import { NotesIcon } from "../screens/notes/sending";
import { PaceScreen } from "../screens/pace/screen";

export interface AppPlace {
  path: string;
  name: string;
  icon: ComponentType;
  screen: ComponentType;
  /** What this place alone tells through the wet lock too. */
  lockedAlarms?: ComponentType;
}

export const places: AppPlace[] = [
  { path: "lines", name: text.places.lines, icon: Lines, screen: LinesScreen },
  { path: "pace", name: text.places.pace, icon: Pace, screen: PaceScreen },
  { path: "notes", name: text.places.notes, icon: NotesIcon, screen: NotesScreen },
  { path: "fish", name: text.places.fish, icon: Fish, screen: FishScreen, lockedAlarms: LockedBagStop },
  { path: "crew", name: text.places.crew, icon: Crew, screen: CrewScreen },
];
