/** A rod's depth card: marks on the wire by weight, physics with its band beside the rule of thumb. */

import { useAnswer } from "../../../base/desk/ask";
import type { CardAnswer } from "../../../base/desk/types/towline.gen";
import type { ThumbAnswer } from "../../../base/desk/types/trade.gen";
import { Gone } from "../../../base/parts/gone";
import { Check, Down, Up } from "../../../base/parts/icons";
import { sayOther } from "../../../base/parts/input/problem";
import { Page } from "../../../base/parts/page";
import { WideTable } from "../../../base/parts/wide-table";
import { href } from "../../../base/shell/route";
import { fromDesk, text } from "../../../base/text/text";
import { units } from "../../../base/units/settings";
import { about, amount, asSureAs, bandNumbers, numeral, unitName } from "../../../base/units/show";
import { fromSi, inSi } from "../../../base/units/units";
import { gear, pick, type Rig } from "../../../state/gear/gear";
import { placeName, rigName } from "../../../state/gear/names";
import { doubtNow } from "../../../state/spread/doubt";
import { rodFor, seaFor, sinkerOn } from "../../../state/spread/request";
import { type Rod, type Spread, spread } from "../../../state/spread/spread";
import { properties } from "../../../state/spread/water";

export function CardPage({ id }: { id: string }) {
  const rod = spread.value.rods.find((r) => r.id === id);
  if (!rod) return <Gone back={href("lines")} />;
  return <Card rod={rod} now={spread.value} />;
}

/** Drails compared, in the steps sold; the first is none. */
const heaviest = 4;

function Card({ rod, now }: { rod: Rod; now: Spread }) {
  const g = gear.value;
  const rig = pick(g.rigs, rod.rig);
  const lineOuts = marksOn(rig);
  const step = 4 * inSi.oz;
  const drails = Array.from({ length: heaviest + 1 }, (_, i) => i * step);
  const sinker = sinkerOn(g, rod) ?? 0;
  const query = (drail: number, compare: number[]) => ({
    sea: seaFor(now, properties.value),
    doubt: doubtNow.value,
    rod: rodFor(g, { ...rod, drail }),
    lineOuts,
    drails: compare,
    above: rig.leaderLength,
  });
  const asRigged = useAnswer("card", query(rod.drail, [0]));
  const compared = useAnswer("card", query(0, drails));
  const rules = useAnswer("thumb", {
    rods: lineOuts.map((lineOut) => ({ lineOut, weight: rod.drail + sinker })),
  });
  const rulesCompared = useAnswer("thumb", {
    rods: lineOuts.flatMap((lineOut) => drails.map((drail) => ({ lineOut, weight: drail + sinker }))),
  });
  const t = text.card;
  const problem = asRigged.problem ?? compared.problem;
  return (
    <Page title={t.title(placeName(pick(g.places, rod.place)))} back={href("lines")}>
      <p>
        {rigName(rig, g)}. {t.at(about("speed", now.speed, 0.1))}
      </p>
      {problem && <p role="alert">{sayOther(problem)}</p>}
      {asRigged.answer && rules.answer && (
        <>
          <h2>{t.asRigged(rod.drail > 0 ? amount("weight", rod.drail) : undefined)}</h2>
          <AsRigged answer={asRigged.answer} rules={rules.answer} />
          <Parting answer={asRigged.answer} rules={rules.answer} />
        </>
      )}
      {compared.answer && rulesCompared.answer && (
        <>
          <h2>{t.compared}</h2>
          <Compared answer={compared.answer} rules={rulesCompared.answer} drails={drails} />
        </>
      )}
      <h2>{t.whyTitle}</h2>
      {t.why.map((paragraph) => (
        <p key={paragraph}>{paragraph}</p>
      ))}
      <p>{t.cables(rodFor(g, rod).learned !== undefined)}</p>
    </Page>
  );
}

/** Marks on the wire: every 50 ft or the like as far as the wire goes, ten at most. */
function marksOn(rig: Rig): number[] {
  const unit = inSi[units().line];
  const whole = { ft: 50, fm: 10, m: 15 }[units().line];
  const times = Math.max(1, Math.ceil(fromSi(rig.wireLength, units().line) / whole / 10));
  const marks: number[] = [];
  for (let mark = whole * times; mark * unit <= rig.wireLength + 1e-6; mark += whole * times)
    marks.push(mark * unit);
  return marks.length > 0 ? marks : [rig.wireLength];
}

/** Whether physics runs deeper than the rule, shallower, or has the rule inside its band. */
type Against = "inside" | "deeper" | "shallower";

function against(row: CardAnswer["rows"][number], rule: number): Against {
  if (rule < row.depth.low) return "deeper";
  return rule > row.depth.high ? "shallower" : "inside";
}

const marks = { inside: Check, deeper: Down, shallower: Up };

function AsRigged({ answer, rules }: { answer: CardAnswer; rules: ThumbAnswer }) {
  const t = text.card;
  return (
    <WideTable name={t.depth(unitName("depth"))}>
      <table class="card large">
        <thead>
          <tr>
            <th scope="col">{t.lineOut(unitName("line"))}</th>
            <th scope="col">{t.depth(unitName("depth"))}</th>
            <th scope="col">{t.rule}</th>
          </tr>
        </thead>
        <tbody>
          {answer.rows.map((row, i) => {
            const { mid, half } = bandNumbers("depth", row.depth);
            const rule = rules.depths[i] ?? 0;
            const Mark = marks[against(row, rule)];
            return (
              <tr key={row.lineOut}>
                <th scope="row">{numeral(fromSi(row.lineOut, units().line))}</th>
                <td>{row.depth.mid > 0 ? `${mid}\u202f±\u202f${half}` : "–"}</td>
                <td class="rule">
                  {numeral(fromSi(rule, units().depth))} <Mark />
                  <span class="visually-hidden">{t.against[against(row, rule)]}</span>
                </td>
              </tr>
            );
          })}
        </tbody>
        <caption>{text.thumb.caption(fromDesk(rules.label))}</caption>
      </table>
    </WideTable>
  );
}

/** Where rule and physics part, in words. */
function Parting({ answer, rules }: { answer: CardAnswer; rules: ThumbAnswer }) {
  const groups: { [A in Against]: string[] } = { inside: [], deeper: [], shallower: [] };
  answer.rows.forEach((row, i) => {
    if (row.depth.mid > 0)
      groups[against(row, rules.depths[i] ?? 0)].push(numeral(fromSi(row.lineOut, units().line)));
  });
  return (
    <ul class="parting">
      {(Object.keys(groups) as Against[])
        .filter((kind) => groups[kind].length > 0)
        .map((kind) => {
          const Mark = marks[kind];
          return (
            <li key={kind}>
              <Mark /> {text.card.parting[kind](groups[kind].join(", "), unitName("line"))}
            </li>
          );
        })}
    </ul>
  );
}

function Compared({ answer, rules, drails }: { answer: CardAnswer; rules: ThumbAnswer; drails: number[] }) {
  const t = text.card;
  return (
    <WideTable name={t.compared}>
      <table class="card">
        <thead>
          <tr>
            <th scope="col">{t.lineOut(unitName("line"))}</th>
            {drails.map((drail) => (
              <th key={drail} scope="col">
                {drail > 0 ? amount("weight", drail) : text.lines.none}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {answer.rows.map((row, i) => (
            <tr key={row.lineOut}>
              <th scope="row">{numeral(fromSi(row.lineOut, units().line))}</th>
              {row.byDrail.map((depth, j) => (
                <td key={drails[j]}>
                  {depth > 0 ? asSureAs("depth", depth, row.depth).split("\u00a0")[0] : "–"}
                  <span class="rule">
                    <span class="visually-hidden">, {t.rule} </span>
                    {about("depth", rules.depths[i * drails.length + j] ?? 0, 1).split("\u00a0")[0]}
                  </span>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
        <caption>{t.comparedCaption(unitName("depth"), fromDesk(rules.label))}</caption>
      </table>
    </WideTable>
  );
}
