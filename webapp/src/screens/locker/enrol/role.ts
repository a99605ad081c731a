/** What roles are called. One that this app does not know keeps the server's word for it. */
import { text } from "../../../base/text/text";
import type { Role } from "../../../state/entry/contract";

type Words = { [role in Role]: string };

const of = (words: Words, role: string): string | undefined =>
  Object.hasOwn(words, role) ? words[role as Role] : undefined;

export const roleName = (role: string): string => of(text.enrol.roles, role) ?? role;

export const roleWhat = (role: string): string | undefined => of(text.enrol.roleWhat, role);
