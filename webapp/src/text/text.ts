/** The language in use. A second one is a file beside en.ts of the type Text, and a choice here. */
import { en } from "./en";

export type Text = typeof en;

export const text: Text = en;
