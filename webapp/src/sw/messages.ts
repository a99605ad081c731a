/** What passes between the page and the service worker. */

export type ToServiceWorker = "what do you have?" | "be in use";

/** What a service worker has of its version. */
export interface Kit {
  /** Its own version, and the version that pages are served from. */
  version: string;
  inUse: string;
  files: number;
  missing: number;
}
