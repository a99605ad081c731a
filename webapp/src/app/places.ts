/** The places of the app, in the order of the bar. One line each; with one place there is no bar. */
import type { ComponentType } from "preact";
import { Crew, Fish, Lines, Pace } from "../base/parts/icons";
import { text } from "../base/text/text";
import { LinesScreen } from "../screens/lines/screen";
import { NotesIcon } from "./notes-icon";
import { crew, fish, notes, pace } from "./rooms";

export interface AppPlace {
  path: string;
  name: string;
  icon: ComponentType;
  screen: ComponentType;
}

export const places: AppPlace[] = [
  { path: "lines", name: text.places.lines, icon: Lines, screen: LinesScreen },
  { path: "pace", name: text.places.pace, icon: Pace, screen: pace(({ PaceScreen }) => PaceScreen) },
  {
    path: "notes",
    name: text.places.notes,
    icon: NotesIcon,
    screen: notes(({ NotesScreen }) => NotesScreen),
  },
  { path: "fish", name: text.places.fish, icon: Fish, screen: fish(({ FishScreen }) => FishScreen) },
  { path: "crew", name: text.places.crew, icon: Crew, screen: crew(({ CrewScreen }) => CrewScreen) },
];
