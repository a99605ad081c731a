/** In what this page is open. Only tokens of the platforms are looked at; what cannot be told counts as a browser. */
import { installed } from "./install";

export type Platform = "ios" | "android" | "computer";

export const platform = (agent = navigator.userAgent, touches = navigator.maxTouchPoints): Platform => {
  if (/iPhone|iPad|iPod/.test(agent) || (/Macintosh/.test(agent) && touches > 1)) return "ios";
  return /Android/.test(agent) ? "android" : "computer";
};

/**
 * Whether the page is open inside another app, such as a scanner or a messenger: there nothing is kept for sea.
 * Android marks such views; on iPhone and iPad they lack the browser's own token, as does the home screen.
 */
export const insideAnotherApp = (agent = navigator.userAgent): boolean => {
  if (installed()) return false;
  return platform(agent, 0) === "ios" ? !/Safari\//.test(agent) : /; wv\)/.test(agent);
};

/** Firefox has its own list of authorities, and on Android does not trust those that were installed on the phone. */
export const firefoxOnAndroid = (agent = navigator.userAgent): boolean => /Android.*Firefox\//.test(agent);

/** An address that Android opens in the phone's own browser. */
export const forBrowser = (url: string): string =>
  `intent://${url.replace(/^https?:\/\//, "")}#Intent;scheme=${new URL(url).protocol.slice(0, -1)};action=android.intent.action.VIEW;category=android.intent.category.BROWSABLE;end`;
