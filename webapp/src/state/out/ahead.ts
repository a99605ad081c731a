/** The water ahead as a calendar: slacks, high and low water, sunrise and sunset of a day at a place. */

import { desk } from "../../base/desk/desk";
import type { Answer } from "../../base/desk/types/day.gen";
import type { Event, Query } from "../../base/desk/types/formats.gen";
import { text } from "../../base/text/text";
import { place as placeName } from "../../base/units/when";
import { give } from "./give";

const t = text.tide;

const turns = ["slack before flood", "slack before ebb", "high water", "low water"];
const changes = ["sunrise", "sunset"];

/** What the desk is asked for; made: now, in s. */
export function aheadQuery(of: Answer, at: { lat: number; lon: number }, made: number): Query {
  const event = (what: string, name: string, time: number, words: string): Event => ({
    // The same moment of the same place is the same event, whenever it is taken out.
    id: `${what.replaceAll(" ", "-")}-${Math.round(time / 60)}-${at.lat.toFixed(2)}-${at.lon.toFixed(2)}`,
    ...{ from: time, to: time, name, words, placed: true, lat: at.lat, lon: at.lon },
  });
  const ofStation = (prediction: Answer["tide"]) =>
    (prediction?.marks ?? [])
      .filter(({ turn }) => turns.includes(turn))
      .map(({ turn, time }) => event(turn, t.turns[turn], time, `${prediction?.station.name}. ${t.caution}`));
  const sun = of.light.events
    .filter(({ change }) => changes.includes(change))
    .map(({ change, time }) => event(change, t.changes[change], time, ""));
  const events = [...ofStation(of.tide), ...ofStation(of.stream), ...sun].sort((a, b) => a.from - b.from);
  return { format: "ics", name: t.title, made, events };
}

/** Hands it over; tells where there is nothing to put in it. */
export async function giveAhead(
  of: Answer,
  at: { lat: number; lon: number },
  day: string,
): Promise<string | undefined> {
  const query = aheadQuery(of, at, Math.floor(Date.now() / 1000));
  if (query.events?.length === 0) return t.nothingAhead;
  const { text: file, type } = await desk.ask("formats", query);
  return give(`${day} ${placeName(at.lat, at.lon)}.ics`.replace(/[^\p{L}\p{N}.]+/gu, "-"), file, type);
}
