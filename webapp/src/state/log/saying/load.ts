/** The log as it is when the app starts. */
import { inTime, openWithin, over } from "../../../base/store/kept";
import { refresh, unread } from "../log";
import { resume } from "./writing";

/** Reads what the screens need. Never fails: what cannot be read is told. */
export async function loadLog(): Promise<void> {
  try {
    const reading = resume().then(refresh);
    await inTime(
      openWithin,
      // It may come later than that.
      reading.then(() => over({ kind: "unopened", name: "log" })),
    );
  } catch {
    unread();
  }
}
