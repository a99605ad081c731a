import { beforeEach, expect, it, vi } from "vitest";

// Agents as the platforms' documentation gives their forms (from memory), without any app's own token.
const agents = {
  "iPhone, browser":
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_1 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.1 Mobile/15E148 Safari/604.1",
  "iPhone, inside an app":
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_1 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Mobile/15E148",
  "Android, browser":
    "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/131.0.0.0 Mobile Safari/537.36",
  "Android, inside an app":
    "Mozilla/5.0 (Linux; Android 14; Phone Build/X; wv) AppleWebKit/537.36 (KHTML, like Gecko) Version/4.0 Chrome/131.0.0.0 Mobile Safari/537.36",
  computer: "Mozilla/5.0 (X11; Linux x86_64; rv:130.0) Gecko/20100101 Firefox/130.0",
};

let onHomeScreen = false;

beforeEach(() => {
  vi.resetModules();
  vi.stubGlobal("addEventListener", () => undefined);
  vi.stubGlobal("navigator", {});
  vi.stubGlobal("matchMedia", () => ({ matches: onHomeScreen }));
});

it("knows the platform, and a page that is open inside another app", async () => {
  const { platform, insideAnotherApp } = await import("./platform");
  const seen = Object.entries(agents).map(([, agent]) => [platform(agent, 0), insideAnotherApp(agent)]);
  expect(seen).toEqual([
    ["ios", false],
    ["ios", true],
    ["android", false],
    ["android", true],
    ["computer", false],
  ]);
  // A tablet that says it is a computer.
  expect(platform("Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) Version/18.1 Safari/605.1.15", 5)).toBe(
    "ios",
  );
  onHomeScreen = true;
  expect(insideAnotherApp(agents["iPhone, inside an app"])).toBe(false);
  onHomeScreen = false;
});

it("knows the browser that has authorities of its own on Android, and nowhere else", async () => {
  const { firefoxOnAndroid } = await import("./platform");
  expect(Object.values(agents).map(firefoxOnAndroid)).toEqual([false, false, false, false, false]);
  expect(firefoxOnAndroid("Mozilla/5.0 (Android 14; Mobile; rv:130.0) Gecko/130.0 Firefox/130.0")).toBe(true);
});

it("hands an address on, with its invitation", async () => {
  const { forBrowser } = await import("./platform");
  expect(forBrowser("https://boat.local:8443/#join=abc")).toBe(
    "intent://boat.local:8443/#join=abc#Intent;scheme=https;action=android.intent.action.VIEW;category=android.intent.category.BROWSABLE;end",
  );
});
