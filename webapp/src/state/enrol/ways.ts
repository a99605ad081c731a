/** The ways in to this server: the answer of its GET /api/way-in. */

export interface Ways {
  best: Way;
  others: Way[];
  earlier: { url: string; lastServed: string; keep: string }[];
  notes: string[];
  /** The boat's own authority; not there if phones trust the server of themselves. */
  boat?: Boat;
}

export interface Way {
  url: string;
  /** Where a phone goes that was never here; the code says it. */
  enter: string;
  reach: "name" | "network" | "computer";
  secure: boolean;
  qr: string;
}

export interface Boat {
  name: string;
  fingerprint: string;
  /** Where its certificate is, and the same as a profile for iPhones. */
  certificate: string;
  profile: string;
}

/** Undefined without the server. */
export async function askWays(): Promise<Ways | undefined> {
  try {
    const response = await fetch("/api/way-in");
    return response.ok ? ((await response.json()) as Ways) : undefined;
  } catch {
    return undefined;
  }
}
