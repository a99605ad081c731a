/** The day by the hour: the water, how to go in it, and how much line each rod has out then. */
import type { Answer, Row } from "../../base/desk/types/day.gen";
import { WideTable } from "../../base/parts/wide-table";
import { text } from "../../base/text/text";
import { amount, rounded } from "../../base/units/show";
import { clock, course } from "../../base/units/when";
import { gear, pick } from "../../state/gear/gear";
import { spread } from "../../state/spread/spread";
import { height, speed } from "./words";

const t = text.tide;

const hourly = ({ time }: Row) => time % 3600 === 0;

export function Hours({ of }: { of: Answer }) {
  const charted = of.rows.some(({ water }) => water && water.depth > 0);
  // The answer may be of a moment before, with another rod on.
  const reels = spread.value.rods.map((rod) => pick(gear.value.rigs, rod.rig).wireLength);
  const rods = [...(of.rows[0]?.lineOut ?? []).keys()];
  const beyond = (out: number, rod: number) => out > (reels[rod] ?? out);
  const rows = of.rows.filter(hourly);
  return (
    <>
      <WideTable name={t.table}>
        <table class="tide-hours">
          <caption>{t.table}</caption>
          <thead>
            <tr>
              {[
                t.time,
                charted ? t.deep : t.height,
                t.current,
                t.hold,
                ...rods.map((rod) => t.lineOut(rod + 1)),
              ].map((name) => (
                <th key={name} scope="col">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ time, water, flow, holds, run, lineOut }) => (
              <tr key={time}>
                <th scope="row">{clock(time * 1000)}</th>
                <td>{water ? height(charted ? water.depth : water.height) : "–"}</td>
                <td>{flow ? `${speed(flow.speed)} ${course(flow.set)}` : "–"}</td>
                <td>
                  {run
                    ? holds
                      ? t.holds(course(run.heading), speed(run.made))
                      : t.otherwise(course(run.track))
                    : "–"}
                </td>
                {lineOut?.map((out, rod) => (
                  <td key={rod}>
                    {out === 0
                      ? "–"
                      : beyond(out, rod)
                        ? `>\u00a0${amount("line", reels[rod] ?? out)}`
                        : rounded("line", out)}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
      {rods.length > 0 && <p class="soft">{t.byOdds}</p>}
      {rows.some(({ lineOut }) => lineOut?.some((out, rod) => out === 0 || beyond(out, rod))) && (
        <p>{t.beyond}</p>
      )}
    </>
  );
}
