/** What passes between the screen and the desk's worker. Requests and replies are JSON texts. */

export interface ToDesk {
  id: number;
  name: string;
  request: string;
}

export type FromDesk = { ready: true } | { id: number; reply: string } | { died: string };
