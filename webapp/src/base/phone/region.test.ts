import { describe, expect, it } from "vitest";
import { localeFor } from "./region";

describe("numbers are written as in the region of the phone", () => {
  it.each([
    [["es-MX"], "es-MX"],
    [["es-ES", "en"], "es-ES"],
    [["en-US", "es-MX"], "es-MX"],
    [["en-US"], "es-US"],
    [["es"], "es"],
    [["es", "en-US"], "es-US"],
    [["es-419"], "es-419"],
    [[], "es"],
  ])("%j: %s", (wanted, locale) => {
    expect(localeFor("es", wanted)).toBe(locale);
  });

  it("what is no language by the standard is passed over", () => {
    expect(localeFor("en", ["en-US@posix", "C", "", "en-GB"])).toBe("en-GB");
    expect(localeFor("en", ["en-US@posix"])).toBe("en");
  });

  it("a language that names its own region keeps it", () => {
    expect(localeFor("en-XA", ["en-US"])).toBe("en-XA");
  });

  it.each([
    // Unicode CLDR, numbers: the decimal sign of each region.
    ["es-MX", "3.5"],
    ["es-US", "3.5"],
    ["es-419", "3.5"],
    ["es-ES", "3,5"],
    ["es", "3,5"],
    ["en-US", "3.5"],
  ])("%s writes %s", (locale, written) => {
    expect(new Intl.NumberFormat(locale).format(3.5)).toBe(written);
  });
});
