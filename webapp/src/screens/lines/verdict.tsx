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
  return (
    <span class={`verdict ${kind}`}>
      <Icon />
      {answer.trouble ? text.lines.noAnswer : text.lines.verdicts[answer.verdict]}
    </span>
  );
}
