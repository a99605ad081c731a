import type { VNode } from "preact";
import { describe, expect, it } from "vitest";
import { Live, liveWords, Rings } from "./live";

/** What it draws: whether the mark, what is read, and what is said to who cannot see it. */
function shown(age: number | undefined) {
  const drawn = Live({ age: () => age }) as VNode<{ children: VNode<{ children: unknown }>[] }> | null;
  if (!drawn) return undefined;
  const [mark, read, said] = drawn.props.children;
  const words = (of: VNode<{ children: unknown }> | undefined) => [of?.props.children].flat().join("").trim();
  return { mark: mark?.type === Rings, read: words(read), said: words(said) };
}

describe("the mark of what the instruments say", () => {
  it("is none on what is not theirs", () => {
    expect(shown(undefined)).toBeUndefined();
  });

  it("stands alone while the number is of now", () => {
    for (const age of [0, 0.4, 1.99])
      expect(shown(age), String(age)).toEqual({
        mark: true,
        read: "",
        said: "from the boat’s instruments",
      });
  });

  it("has the age beside it, to be read and to be heard, from two seconds on", () => {
    expect(shown(2)).toEqual({
      mark: true,
      read: "2\u00a0s",
      said: "from the boat’s instruments, 2\u00a0s old",
    });
    expect(liveWords(1.99)).toBe("from the boat’s instruments");
    expect(liveWords(2)).toBe("from the boat’s instruments, 2\u00a0s old");
    expect(shown(4.9)?.read).toBe("4\u00a0s");
    expect(shown(150)?.read).toBe("3\u00a0min");
  });
});
