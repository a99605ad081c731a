import type { ComponentChildren, VNode } from "preact";
import { afterEach, describe, expect, it, vi } from "vitest";
import { text } from "../../text/text";
import { Notice } from "../notice";
import { later, NotHere } from "./later";

// It reads the size of the window.
vi.mock("../../shell/pose", () => ({ pose: { value: "upright" } }));

afterEach(() => vi.unstubAllGlobals());

describe("what comes when it is first shown", () => {
  it("is asked for once, however many want it", async () => {
    const get = vi.fn(async () => ({ page: 1 }));
    const room = later(get);
    expect(await Promise.all([room.load(), room.load()])).toEqual([{ page: 1 }, { page: 1 }]);
    await room.load();
    expect(get).toHaveBeenCalledTimes(1);
    expect(room.failed.value).toBe(false);
  });

  it("and does not come is known to have failed, and asked for again the next time", async () => {
    const get = vi.fn<() => Promise<{ page: number }>>().mockRejectedValueOnce(new TypeError("no network"));
    get.mockResolvedValueOnce({ page: 1 });
    const room = later(get);
    await expect(room.load()).rejects.toThrow("no network");
    expect(room.failed.value).toBe(true);
    expect(room.here.value).toBeUndefined();
    await expect(room.load()).resolves.toEqual({ page: 1 });
    expect(room.here.value).toEqual({ page: 1 });
  });
});

describe("what is shown in its place", () => {
  type Props = { alarm?: boolean; children: ComponentChildren; actions: VNode<{ onTap(): void }> };

  it("says what to do, and a tap loads the app anew where it was", () => {
    const reload = vi.fn();
    vi.stubGlobal("location", { ...globalThis.location, reload });
    const notice = NotHere() as VNode<Props>;
    expect(notice.type).toBe(Notice);
    expect(notice.props.alarm).toBe(true);
    expect(notice.props.children).toBe(text.notices.notLoaded.what);
    expect(reload).not.toHaveBeenCalled();
    notice.props.actions.props.onTap();
    expect(reload).toHaveBeenCalledTimes(1);
  });
});
