/** The few commands of the W3C WebDriver protocol that a phone of these tests is led by. */

export type Command = "go" | "run" | "tap" | "type" | "resize" | "picture";

/** An element of the page, as the protocol names it. */
export type Handle = { [key in "element-6066-11e4-a52e-4f735466cecf"]: string };

export const idOf = (handle: Handle): string => Object.values(handle)[0] ?? "";

/** An engine that runs and is led. */
export interface Driver {
  send(command: Command, parameters: object, element?: string): Promise<unknown>;
  /** Ends the engine as a person does. Answers with the faults that its console told of since it began. */
  quit(): Promise<string[]>;
}

/** What the driver answers instead when a command fails. */
export class Refused extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(`${code}: ${message}`);
  }
}
