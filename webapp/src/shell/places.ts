/** The places of the app, in the order of the bar. One line each; with one place there is no bar. */
import type { ComponentType } from "preact";
import { CrewScreen } from "../crew/screen";
import { FishScreen } from "../fish/screen";
import { LinesScreen } from "../lines/screen";
import { NotesScreen } from "../notes/screen";
import { NotesIcon } from "../notes/sending";
import { PaceScreen } from "../pace/screen";
import { Crew, Fish, Lines, Pace } from "../parts/icons";
import { text } from "../text/text";

export interface AppPlace {
  path: string;
  name: string;
  icon: ComponentType;
  screen: ComponentType;
}

export const places: AppPlace[] = [
  { path: "lines", name: text.places.lines, icon: Lines, screen: LinesScreen },
  { path: "pace", name: text.places.pace, icon: Pace, screen: PaceScreen },
  { path: "notes", name: text.places.notes, icon: NotesIcon, screen: NotesScreen },
  { path: "fish", name: text.places.fish, icon: Fish, screen: FishScreen },
  { path: "crew", name: text.places.crew, icon: Crew, screen: CrewScreen },
];
