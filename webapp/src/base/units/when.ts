/** Times and places as they are read. */
import { decimalMark, locale } from "../text/locale";
import { text } from "../text/text";
import { numeral } from "./show";

/** Made when it is first needed: that takes as long as much of the start. */
function format(options: Intl.DateTimeFormatOptions) {
  let made: Intl.DateTimeFormat | undefined;
  return {
    format: (ms: number | Date): string => {
      made ??= new Intl.DateTimeFormat(locale, options);
      return made.format(ms);
    },
  };
}
const time = format({ hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
const date = format({ weekday: "short", day: "numeric", month: "short" });
const year = format({ weekday: "short", day: "numeric", month: "short", year: "numeric" });

/** “14:02” */
export const clock = (ms: number): string => time.format(ms);

/** “Sat, Jun 12”, with the year where it is another one. */
export const day = (ms: number): string =>
  (new Date(ms).getFullYear() === new Date().getFullYear() ? date : year).format(ms);

/** “Sat, Jun 12, 2026”: what is kept or given away says of which year it is. */
export const dated = (ms: number): string => year.format(ms);

/** “14:02”, with the day where it is another one. */
export const moment = (ms: number): string =>
  day(ms) === day(Date.now()) ? clock(ms) : `${day(ms)} ${clock(ms)}`;

/** “41°15.250′N 71°30.000′W”: degrees and minutes, as on a chart. */
export function place(lat: number, lon: number): string {
  const part = (value: number, letters: string, digits: number) => {
    // In thousandths of a minute, so that nothing is rounded up to 60′.
    const thousandths = Math.round(Math.abs(value) * 60_000);
    const degrees = String(Math.floor(thousandths / 60_000)).padStart(digits, "0");
    const minutes = ((thousandths % 60_000) / 1000).toFixed(3).replace(".", decimalMark).padStart(6, "0");
    return `${degrees}°${minutes}′${letters[value < 0 ? 1 : 0]}`;
  };
  return `${part(lat, "NS", 2)} ${part(lon, "EW", 3)}`;
}

/** “045°”: from true north, three figures. */
export function course(radians: number): string {
  const degrees = Math.round((radians * 180) / Math.PI);
  return `${String(((degrees % 360) + 360) % 360).padStart(3, "0")}°`;
}

/** A course on the circle in whole degrees: as it is, or the next five degrees on. */
export function turned(radians: number, by: 1 | 0 | -1 = 0): number {
  const degrees = (radians * 180) / Math.PI;
  const whole = by === 0 ? Math.round(degrees) : Math.round(degrees / 5) * 5 + 5 * by;
  return ((((whole % 360) + 360) % 360) * Math.PI) / 180;
}

/** A time span in s: “95 s”, “6 min 40 s”. */
export function lasting(s: number): string {
  const whole = Math.round(s);
  if (whole < 100) return text.ages.seconds(numeral(whole));
  const [minutes, seconds] = [Math.floor(whole / 60), whole % 60];
  return seconds === 0
    ? text.ages.minutes(numeral(minutes))
    : text.ages.both(numeral(minutes), numeral(seconds));
}
