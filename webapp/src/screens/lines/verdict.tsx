/** How likely a rod rides in the wanted band, at a glance, and in words what else it may do. */
import type { ComponentType } from "preact";
import type { RodAnswer, Verdict } from "../../base/desk/types/towline.gen";
import { Check, Down, Grounded, Question, Up } from "../../base/parts/icons";
import { text } from "../../base/text/text";
import { inTen } from "../../base/units/show";
import { oddsTold } from "./words";

const t = text.lines;

const marks: { [V in Verdict]: { kind: string; Icon: ComponentType } } = {
  "in the band": { kind: "good", Icon: Check },
  "too high": { kind: "off", Icon: Up },
  "too deep": { kind: "off", Icon: Down },
  "on the bottom": { kind: "alarm", Icon: Grounded },
};

/** Green only where it is likelier in the band than not, as the odds are said, and touches no oftener than is accepted. */
export const kindOf = ({ trouble, verdict, odds, risky }: RodAnswer): string => {
  if (trouble) return "off";
  const { kind } = marks[verdict];
  return kind === "good" && !(Math.round(odds.inBand * 10) > 5 && !risky) ? "off" : kind;
};

export function VerdictMark({ answer }: { answer: RodAnswer }) {
  const Icon = answer.trouble ? Question : marks[answer.verdict].Icon;
  return (
    <span class={`verdict ${kindOf(answer)}`}>
      <Icon />
      <span>{answer.trouble ? t.noAnswer : verdictWords(answer)}</span>
    </span>
  );
}

/** In the band, or perhaps: where it is no likelier than all else together. */
export const verdictWords = ({ verdict, likely }: RodAnswer): string =>
  likely ? t.verdicts[verdict] : t.perhaps(t.verdicts[verdict].toLowerCase());

/** A bar that fills with the chance to ride in the band, and the chance in few words, for a row has one line for it: “7 in 10”. */
export function OddsBar({ answer }: { answer: RodAnswer }) {
  const { inBand } = answer.odds;
  return (
    <span class={`odds ${kindOf(answer)}`}>
      <Shown of={answer} />
      <span class="odds-bar" aria-hidden="true">
        <span style={{ width: `${Math.round(inBand * 100)}%` }} />
      </span>
      <span class="odds-words">{inTen(inBand, text.odds.brief)}</span>
      <span class="visually-hidden"> {t.odds.ofBand}</span>
    </span>
  );
}

/** Which way it is off, where it likely is. */
function Shown({ of }: { of: RodAnswer }) {
  if (of.verdict === "in the band") return null;
  const { Icon } = marks[of.verdict];
  return (
    <>
      <Icon />
      <span class="visually-hidden">{verdictWords(of)} </span>
    </>
  );
}

/** “In the band 7 in 10, too high 1 in 10, touches 2 in 10.” */
export function oddsWords({ odds }: Pick<RodAnswer, "odds">): string {
  const parts = [
    t.odds.inBand(inTen(odds.inBand)),
    odds.high >= oddsTold && t.odds.high(inTen(odds.high)),
    odds.deep >= oddsTold && t.odds.deep(inTen(odds.deep)),
    odds.touch >= oddsTold && t.odds.touch(inTen(odds.touch)),
  ];
  return `${parts.filter((part) => part !== false).join(", ")}.`;
}
