import { expect, it, vi } from "vitest";
import { sampleSpread } from "../../../state/spread/sample";
import { spread } from "../../../state/spread/spread";
import { allInTold, takeAllIn } from "./all-in";

let read = () => {};
const reading = new Promise<void>((done) => {
  read = done;
});
const noted = vi.fn();
vi.mock("../../../base/parts/notice", () => ({ Act: "act", Notice: "notice" }));
vi.mock("../../../state/notes/search/reading", () => ({ logRead: () => reading }));
vi.mock("../../../state/log/log", () => ({ running: { value: {} }, you: { value: undefined } }));
vi.mock("../../../state/log/saying/say", () => ({ strike: () => {} }));
vi.mock("../../../state/notes/create", () => ({ createLines: (allIn: boolean) => noted(allIn) }));

/** What the button of the notice does. */
function outAgain(): void {
  const notice = allInTold()?.whole as { props: { actions: { props: { onTap: () => void } } } };
  notice.props.actions.props.onTap();
}

it("in, out and in again before the notes are read is noted each time, as it was", async () => {
  spread.signal.value = sampleSpread;
  takeAllIn();
  outAgain();
  expect(allInTold()).toBeUndefined();
  takeAllIn();
  expect(spread.value.allIn).toBe(true);
  expect(noted).not.toHaveBeenCalled();
  read();
  await vi.waitFor(() => expect(noted).toHaveBeenCalledTimes(3));
  expect(noted.mock.calls).toEqual([[true], [false], [true]]);
});
