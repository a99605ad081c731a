/** What passes between the page and the service worker. */

/** The cache in which both note what is in use, and where the language stands in it. */
export const note = "wirewake-in-use";
export const languageUrl = "/language";

export type ToServiceWorker = "what do you have?" | "be in use";

/** What a service worker has of its version. */
export interface Kit {
  /** Its own version, and the version that pages are served from. */
  version: string;
  inUse: string;
  files: number;
  missing: number;
}
