/** For tests: a disk that is slow to answer. */
import { vi } from "vitest";

/** IndexedDB opens, but does not say so before what is returned is called; what waits for a time is let go by. */
export function slowDisk(): () => void {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  let held: (() => void)[] | undefined = [];
  const open = indexedDB.open.bind(indexedDB);
  vi.spyOn(indexedDB, "open").mockImplementation((...of) => {
    const request = open(...of);
    const dispatch = request.dispatchEvent.bind(request);
    request.dispatchEvent = (event) => {
      if (event.type !== "success" || !held) return dispatch(event);
      held.push(() => dispatch(event));
      return true;
    };
    return request;
  });
  return () => {
    vi.useRealTimers();
    const now = held ?? [];
    held = undefined;
    for (const say of now) say();
  };
}
