/** How numbers and dates are written: in the language in use, as in the region of this phone. */
import { languagesOfPhone, localeFor } from "../phone/region";
import { text } from "./text";

export const locale = localeFor(text.language, languagesOfPhone());

/** Between whole and parts, written and typed. */
export const decimalMark =
  new Intl.NumberFormat(locale).formatToParts(1.5).find(({ type }) => type === "decimal")?.value ?? ".";
