/** In the band or not: mark and word. */
import type { ComponentType } from "preact";
import type { RodAnswer, Verdict } from "../../base/desk/types/towline.gen";
import { Check, Down, Grounded, Question, Up } from "../../base/parts/icons";
import { text } from "../../base/text/text";

const marks: { [V in Verdict]: { kind: string; Icon: ComponentType } } = {
  "in the band": { kind: "good", Icon: Check },
  "too high": { kind: "off", Icon: Up },
  "too deep": { kind: "off", Icon: Down },
  "on the bottom": { kind: "alarm", Icon: Grounded },
};

export function VerdictMark({ answer }: { answer: RodAnswer }) {
  const { kind, Icon } = answer.trouble ? { kind: "off", Icon: Question } : marks[answer.verdict];
  const words = answer.trouble ? text.lines.noAnswer : verdictWords(answer);
  return (
    <span class={`verdict ${answer.likely || kind !== "good" ? kind : "off"}`}>
      <Icon />
      {words}
    </span>
  );
}

/** In the band, or perhaps: where it is no likelier than all else together. */
export const verdictWords = ({ verdict, likely }: RodAnswer): string =>
  likely ? text.lines.verdicts[verdict] : text.lines.perhaps(text.lines.verdicts[verdict].toLowerCase());
