/** A manoeuvre followed in time: a turn of 90°, or the boat stopping. It moves only when asked to. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Died, desk, Refused } from "../../../base/desk/desk";
import type { SettleAnswer, Side } from "../../../base/desk/types/towline.gen";
import { once } from "../../../base/shell/guard";
import { text } from "../../../base/text/text";
import { about, numeral } from "../../../base/units/show";
import { gear, pick } from "../../../state/gear/gear";
import { placeName } from "../../../state/gear/names";
import { selectedId } from "../../../state/spread/solved";
import type { Spread } from "../../../state/spread/spread";
import { type Manoeuvre, settleFor } from "../../../state/turn/request";
import type { Drawn } from "./frame";
import { Above, Beside } from "./pictures";
import { Slider } from "./slider";

const t = text.turn;

interface Played {
  what: Manoeuvre;
  /** s from one picture to the next. */
  every: number;
  /** Of each rod; undefined where it cannot be followed. */
  rods: (SettleAnswer | undefined)[];
}

/** A picture for so many ms: as fast as the time it shows, at most four a second. */
const least = 250;

export function Play({ now, toward, quarter }: { now: Spread; toward: Side; quarter: number }) {
  const played = useSignal<Played | undefined>(undefined);
  const working = useSignal(false);
  const key = JSON.stringify([now, toward, quarter]);
  useEffect(() => {
    played.value = undefined;
  }, [key, played]);

  const follow = async (what: Manoeuvre) => {
    working.value = true;
    const rods: Played["rods"] = [];
    let every = 1;
    for (const rod of now.rods) {
      const request = settleFor(now, rod, what, toward, quarter);
      every = request.every ?? every;
      rods.push(await settled(request));
    }
    working.value = false;
    played.value = { what, every, rods };
  };

  return (
    <section class="form">
      <h2>{t.inTime}</h2>
      <div class="pace-row">
        {Number.isFinite(quarter) && (
          <button
            type="button"
            class="button"
            disabled={working.value}
            onClick={once(() => follow("quarter"))}
          >
            {t.playTurn}
          </button>
        )}
        <button type="button" class="button" disabled={working.value} onClick={once(() => follow("stop"))}>
          {t.playStop}
        </button>
      </div>
      {working.value && <p>{text.lines.working}</p>}
      {played.value && <Film key={`${key} ${played.value.what}`} of={played.value} now={now} />}
    </section>
  );
}

async function settled(request: Parameters<typeof desk.ask<"settle">>[1]): Promise<SettleAnswer | undefined> {
  try {
    return await desk.ask("settle", request);
  } catch (fault) {
    if (fault instanceof Refused || fault instanceof Died) return undefined;
    throw fault;
  }
}

function Film({ of, now }: { of: Played; now: Spread }) {
  const at = useSignal(0);
  const running = useSignal(false);
  const frames = Math.max(1, ...of.rods.map((rod) => rod?.depth.length ?? 0));
  useEffect(() => {
    if (!running.value) return;
    const step = Math.max(1, Math.round(least / (of.every * 1000)));
    const timer = setInterval(
      () => {
        at.value = Math.min(frames - 1, at.value + step);
        if (at.value === frames - 1) running.value = false;
      },
      Math.max(least, of.every * 1000),
    );
    return () => clearInterval(timer);
  }, [running.value]);
  const lines: Drawn[] = of.rods.flatMap((rod, i) => {
    const curve = rod?.curves[at.value];
    if (!curve) return [];
    const { astern, abeam, depth } = curve;
    return [{ number: i + 1, astern, abeam, depth, chosen: now.rods[i]?.id === selectedId.value }];
  });
  const time = text.ages.seconds(numeral(Math.round(at.value * of.every)));
  return (
    <>
      <Slider
        label={t.time}
        value={at.value}
        most={frames - 1}
        words={time}
        onSlide={(value) => {
          running.value = false;
          at.value = value;
        }}
      />
      <div class="pace-row">
        <button
          type="button"
          class="button"
          onClick={once(() => {
            if (at.value === frames - 1) at.value = 0;
            running.value = !running.value;
          })}
        >
          {running.value ? t.halt : t.play}
        </button>
        <b>{time}</b>
      </div>
      {of.what === "quarter" && <Above lines={lines} radius={0} words={t.filmWords} />}
      <Beside lines={lines} bottom={now.bottom} words={t.filmWords} />
      {of.what === "stop" && of.rods.some((rod) => rod?.down) && <p class="notice">{t.doNotStop}</p>}
      <ul class="turn-rods">
        {of.rods.map((rod, i) => (
          <li key={now.rods[i]?.id}>
            <b>{text.notes.oneRod(i + 1, placeName(pick(gear.value.places, now.rods[i]?.place ?? "")))}</b>{" "}
            {rod ? told(rod, of.what) : text.turn.notFollowed}
          </li>
        ))}
      </ul>
    </>
  );
}

/** What came of it, in a sentence. */
function told({ deepest, down, risk, settled }: SettleAnswer, what: Manoeuvre): string {
  const s = (time: number) => text.ages.seconds(numeral(Math.round(time)));
  if (down) return t.down(s(down.time), text.lines.parts[down.part] ?? down.part);
  return [
    t.deepest(about("depth", deepest.depth, 1), s(deepest.time)),
    what !== "stop" && (settled ? t.settled(s(settled.time)) : t.notSettled),
    risk && t.mayBeDown(s(risk.time)),
  ]
    .filter(Boolean)
    .join(" ");
}
