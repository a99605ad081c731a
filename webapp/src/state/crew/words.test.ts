import { expect, it } from "vitest";
import { say } from "../../base/text/en/crew";
import { text } from "../../base/text/text";
import { unknownBoat } from "./boat";
import { firstChecks, pages } from "./first";
import {
  emptyFloatPlan,
  floatPlan,
  floatPlanAt,
  floatPlanText,
  fromPicker,
  tooEarly,
  toPicker,
} from "./floatplan";
import { moved } from "./lists";
import { distressCall, isMmsi } from "./mayday";

const boat = {
  ...unknownBoat,
  name: "Petrel",
  callSign: "WXX 1234",
  mmsi: "338 123 456",
  length: 7.3152,
  type: "open boat",
  hull: "white",
};
const call = (known: Partial<Parameters<typeof distressCall>[1]>) =>
  distressCall(say, {
    boat,
    people: 4,
    place: "41°15.252′N 071°30.000′W",
    ground: "",
    ...known,
  });

// Mayday three times; name three times and call sign; Mayday and name; position; nature of distress; help needed;
// persons aboard and injuries; what the boat looks like; over: US Coast Guard Navigation Center, "What do I do if my
// boat is in distress", by a copy of its page.
it("a distress call has its parts in the order of the coast guard", () => {
  const said = call({});
  const order = [/(Mayday.*){3}/, /(Petrel.*){3}WXX 1234/, /^Mayday Petrel/, /41°15/, /We are …/, /help/];
  const rest = [/4 people.*hurt/, /24.ft, open boat, white/, /Listening on channel 16/, /Over/];
  for (const [i, part] of [...order, ...rest].entries()) expect(said[i]).toMatch(part);
});

it("with somebody overboard it says where to look, since when, and that one of the crew is in the water", () => {
  const said = call({ lost: { ago: "4 minutes", where: "41°14.000′N 071°31.000′W" } });
  expect(said[3]).toBe("My position is 41°15.252′N 071°30.000′W.");
  expect(said[4]).toBe("Person overboard, 4 minutes ago. Look for them at 41°14.000′N 071°31.000′W.");
  expect(call({ lost: { ago: "4 minutes", where: undefined } })[4]).toBe("Person overboard, 4 minutes ago.");
  expect(said[6]).toBe("4 people aboard. One of them is in the water.");
});

it("an MMSI is read out digit by digit, and not at all unless it has nine", () => {
  expect(call({})[1]).toContain("M M S I 3 3 8 1 2 3 4 5 6");
  expect(call({ boat: { ...boat, mmsi: "33812345" } })[1]).not.toContain("M M S I");
  expect([isMmsi("338123456"), isMmsi("33812345x"), isMmsi("")]).toEqual([true, false, false]);
});

it("what is not known is left open, to be said as it is", () => {
  const said = call({ boat: unknownBoat, people: 0, place: undefined, ground: "the ledge" });
  expect(said[3]).toBe("My position is … Near the ledge.");
  expect(said[6]).toMatch(/^… people/);
  expect(said.join()).not.toMatch(/undefined|NaN|call sign/);
});

const at = new Date(2026, 5, 12, 5, 30).getTime();
const hour = 3600_000;

it("the float plan says who, where, until when, and that the one ashore calls", () => {
  const said = floatPlanText({
    ...emptyFloatPlan,
    boat: { ...boat, phone: "555 0100" },
    people: "Ann, Ben",
    count: 2,
    ground: "the ledge",
    leaving: at,
    back: at + 8 * hour,
    alarm: at + 10 * hour,
    rescue: "555 0199",
    depth: 15.24,
  });
  for (const part of ["Petrel", "WXX 1234", "Aboard (2): Ann, Ben", "the ledge", "13:30", "15:30", "50"])
    expect(said).toContain(part);
  expect(said).toMatch(/1\. Call us: 555 0100/);
  expect(said).toMatch(/3\..*coast guard: 555 0199.*you who calls/);
  expect(said).toMatch(/5\. We are back after all/);
  expect(said).not.toMatch(/undefined|NaN|: $/m);
});

it("help is not called before the boat is due", () => {
  expect(tooEarly({ ...emptyFloatPlan, back: at, alarm: at })).toBe(true);
  expect(tooEarly({ ...emptyFloatPlan, back: at, alarm: at + 1 })).toBe(false);
  expect(tooEarly({ ...emptyFloatPlan, alarm: at })).toBe(false);
});

it("who, where and when are of one outing, and not left over for the next", () => {
  floatPlan.signal.value = {
    ...emptyFloatPlan,
    from: "marina",
    people: "Ann",
    ground: "the ledge",
    back: at,
    alarm: at + hour,
    at,
  };
  expect(floatPlanAt(at + 10 * hour)).toMatchObject({ people: "Ann", ground: "the ledge", back: at });
  // Planned days ahead: the hours count, not the typing.
  expect(floatPlanAt(at - 72 * hour)).toMatchObject({ people: "Ann" });
  const next = { from: "marina", people: "", ground: "", back: 0, alarm: 0 };
  expect(floatPlanAt(at + 20 * hour)).toMatchObject(next);
});

it("the picker's time is the phone's own", () => {
  expect(toPicker(at)).toBe("2026-06-12T05:30");
  expect(fromPicker(toPicker(at))).toBe(at);
  expect([toPicker(0), fromPicker("")]).toEqual(["", 0]);
});

it("an item moves by one, and not off the end", () => {
  expect(moved(["a", "b", "c"], 0, 1)).toEqual(["b", "a", "c"]);
  expect(moved(["a", "b", "c"], 0, -1)).toEqual(["a", "b", "c"]);
  expect(moved(["a", "b", "c"], 2, 1)).toEqual(["a", "b", "c"]);
});

it("every page that has words is read, and every check that has words stands on one list", () => {
  expect([...pages].sort()).toEqual(Object.keys(text.crew.pages).sort());
  for (const page of pages) expect(text.crew.pages[page].from.length).toBeGreaterThan(5);
  const all = Object.values(firstChecks).flat();
  expect(all.sort()).toEqual(Object.keys(text.crew.checks).sort());
});

// The briefing is to take five minutes. A reader aloud says about 130 words a minute (from memory).
it("the briefing can be read out in about five minutes", () => {
  const words = pages.flatMap((page) => text.crew.pages[page].words.join(" ").split(/\s+/));
  expect(words.length).toBeLessThan(5 * 130);
});
