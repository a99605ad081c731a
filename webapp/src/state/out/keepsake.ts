/**
 * A guest's page of a trip: one file of HTML that opens without the app and prints well. On it are the guest's own fish
 * and photos, and of others nothing but the names of those who said yes to that.
 */
import { Died, desk, Refused } from "../../base/desk/desk";
import { apart } from "../../base/text/apart";
import { text } from "../../base/text/text";
import { about, amount, numeral } from "../../base/units/show";
import { clock, dated } from "../../base/units/when";
import { plainLine } from "../entry/contract";
import { type Folded, number, words } from "../entry/fold";
import { book, you } from "../log/log";
import { bareName, eachOnce } from "../log/names";
import type { Trip } from "../log/one";
import { plainName } from "../notes/trip-name";
import { onlyOne, whose } from "../notes/whose";
import { choiceName, timeOf } from "../notes/words";
import { fetchPhoto } from "../photos/photos";
import { fileName } from "./formats";
import { give } from "./give";

const t = text.keepsake;

/** What is on the page. */
export interface Wanted {
  /** Whose page: the fish told of this name are on it. */
  whose: string;
  /** As the guest wishes to be named. */
  as: string;
  /** Others who said yes to being named. */
  others: string[];
  /** Of the drawing of the track; none without. */
  drawing: string | undefined;
}

/** Everybody who is named on the trip: aboard, or as whose fish it was. */
export const peopleOf = (records: Folded[]): string[] => {
  const told = (...kinds: string[]) =>
    records
      .filter(({ struck, kind }) => !struck && kinds.includes(kind))
      .map((record) => words(record, record.kind === "person" ? "name" : "person") ?? "");
  return eachOnce([...told("person"), ...told("mark", "bag")]).sort();
};

/** In the order in which they came up; person empty: those of which nobody has said whose they are. */
export function fishOfPerson(records: Folded[], person: string): Folded[] {
  const only = onlyOne(records);
  return records
    .filter(
      (record) =>
        record.kind === "mark" &&
        !record.struck &&
        bareName(whose(record, only)) === bareName(person) &&
        words(record, "fish") !== "lost",
    )
    .sort((a, b) => timeOf(a) - timeOf(b));
}

/** Photos of no fish that were taken with the phone that bears this person's name. */
export const photosOfPerson = (records: Folded[], person: string): Folded[] =>
  records
    .filter(({ kind, struck, entries: [first], ...record }) => {
      const phone = first?.own ? you.value?.name : first?.byName;
      const of = record.fields.get("of")?.value;
      return (
        kind === "photo" && !struck && !of && phone !== undefined && bareName(phone) === bareName(person)
      );
    })
    .sort((a, b) => timeOf(a) - timeOf(b));

/** What may be drawn: where others' fish were caught, and what was noted of these there, is theirs to tell. */
export function drawnFor(records: Folded[], whose: string): Folded[] {
  const own = new Set(fishOfPerson(records, whose).map(({ id }) => id));
  const others = new Set(records.flatMap(({ id, kind }) => (kind === "mark" && !own.has(id) ? [id] : [])));
  return records.filter(
    (record) =>
      !others.has(record.id) &&
      !others.has(words(record, "of") ?? "") &&
      !(record.kind === "bag" && words(record, "person") !== whose),
  );
}

const escapes: { [letter: string]: string } = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};
export const escaped = (words: string): string =>
  words.replace(/[&<>"']/g, (letter) => escapes[letter] as string);

async function pictureOf(sha256: string): Promise<string | undefined> {
  const photo =
    (await book.photo(sha256)) ?? ((await fetchPhoto(sha256)) ? await book.photo(sha256) : undefined);
  if (!photo) return undefined;
  let binary = "";
  const bytes = new Uint8Array(photo.bytes);
  for (let i = 0; i < bytes.length; i += 0x8000)
    binary += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return `data:${photo.type};base64,${btoa(binary)}`;
}

/** The picture with these words, which are escaped; empty where it is not to be had. */
async function imageOf(photo: Folded, said: string): Promise<string> {
  const url = await pictureOf(words(photo, "sha256") ?? "");
  return url ? `<img src="${url}" alt="${said}">` : "";
}

const figure = (images: string, said: string): string =>
  `<figure>${images}<figcaption>${said}</figcaption></figure>`;

/** Of another fish nothing is known. */
const weighed = (fish: Folded): number | undefined =>
  words(fish, "fish") === "striped bass" ? number(fish, "length") : undefined;

/** What a striped bass of this length weighs, with its doubt. */
async function weightOf(fish: Folded): Promise<string> {
  const length = weighed(fish);
  if (length === undefined) return "";
  try {
    const { mass } = await desk.ask("weight", { length });
    return t.weight(about("mass", mass.low, 0.5), about("mass", mass.high, 0.5));
  } catch (fault) {
    if (fault instanceof Refused || fault instanceof Died) return "";
    throw fault;
  }
}

async function fishWords(fish: Folded): Promise<string> {
  const length = number(fish, "length");
  const fate = words(fish, "fate");
  return [
    clock(timeOf(fish)),
    apart(choiceName("fish", words(fish, "fish") ?? t.fish)),
    length !== undefined && amount("ruler", length),
    await weightOf(fish),
    fate && choiceName("fate", fate),
  ]
    .filter(Boolean)
    .join(", ");
}

/** Ink on white, on screen and paper. */
const style = `body{font:17px/1.5 system-ui,sans-serif;color:#111;background:#fff;max-width:44rem;margin:0 auto;padding:1rem}
h1{line-height:1.2}img{display:block;max-width:100%;height:auto}figure{margin:1rem 0;break-inside:avoid}
img+img{margin-top:.5rem}h1,h2{break-after:avoid}
svg{--ink:#111;--ground:#fff;--rule:#888}.day-chart{display:block;width:100%;height:auto}svg text{font:13px system-ui,sans-serif}
.day-track{fill:none;stroke:#888;stroke-width:2}.day-bar,.day-flow path,.day-pass{fill:none;stroke:#111;stroke-width:2}
.day-mark{fill:#fff;stroke:#111;stroke-width:2.5}.day-mark.landed{fill:#111;stroke:#fff}.day-touch{fill:#fff;stroke:#111}
.day-key span{display:inline-flex;gap:4px;align-items:center;margin-right:14px}.day-sign{width:32px;height:24px}
small{color:#555}@page{margin:15mm}@media print{body{padding:0}img{max-height:95mm;width:auto}.day-chart{max-height:100mm}}`;

export async function keepsake(trip: Trip, records: Folded[], wanted: Wanted): Promise<string> {
  const { whose, others, drawing } = wanted;
  const as = plainLine(wanted.as);
  const fish = fishOfPerson(records, whose);
  const figures: string[] = [];
  for (const one of fish) {
    const said = escaped(await fishWords(one));
    const photos = records.filter(
      (record) => record.kind === "photo" && !record.struck && words(record, "of") === one.id,
    );
    const images: string[] = [];
    for (const photo of photos) images.push(await imageOf(photo, said));
    figures.push(figure(images.join(""), said));
  }
  const scenes: string[] = [];
  for (const photo of photosOfPerson(records, whose)) {
    const said = escaped(
      [clock(timeOf(photo)), apart(words(photo, "caption") ?? "")].filter(Boolean).join(", "),
    );
    const image = await imageOf(photo, said);
    if (image) scenes.push(figure(image, said));
  }
  const title = escaped(t.titleOf(apart(as || whose), plainName(trip)));
  const named = [as || whose, ...others].filter(Boolean);
  return `<!doctype html>
<html lang="${text.language}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<title>${title}</title><style>${style}</style></head><body>
<h1>${title}</h1>
<p>${escaped([dated(trip.opened), apart(trip.ground)].filter(Boolean).join(" · "))}</p>
<p>${escaped(t.aboard(named.map(apart).join(", ")))}</p>
${fish.length > 0 ? `<h2>${escaped(t.fishTitle(numeral(fish.length)))}</h2>` : ""}
${figures.join("\n") || `<p>${escaped(t.noFish)}</p>`}
${scenes.length > 0 ? `<h2>${escaped(t.photos)}</h2>\n${scenes.join("\n")}` : ""}
${drawing ? `<h2>${escaped(t.where)}</h2><figure>${drawing}<figcaption><small>${escaped(text.produced.day.notChart)}</small></figcaption></figure>` : ""}
${fish.some(weighed) ? `<p><small>${escaped(t.doubt)}</small></p>` : ""}
</body></html>
`;
}

export async function giveKeepsake(
  trip: Trip,
  records: Folded[],
  wanted: Wanted,
): Promise<string | undefined> {
  const name = fileName(`${wanted.as || wanted.whose} ${plainName(trip)}`);
  return give(`${name}.html`, await keepsake(trip, records, wanted), "text/html");
}
