/** The mark of Notes, with how much is not sent once that is known. */
import { Notes } from "../base/parts/icons";
import { after } from "./come";

export function NotesIcon() {
  const Counting = after.value?.NotesIcon;
  return Counting ? <Counting /> : <Notes />;
}
