import fc from "fast-check";
import { expect, it } from "vitest";
import { Refused } from "../../base/desk/desk";
import type { Rod, RodAnswer, Spread, SpreadAnswer } from "../../base/desk/types/towline.gen";
import { Answers } from "./answers";

const rod = (lineOut: number) => ({ lineOut }) as Rod;
const spread = (speed: number, ...lines: number[]) =>
  ({ sea: { speed }, rods: lines.map(rod) }) as unknown as Spread;

/** A desk whose answers tell what was asked; a line of 13 is in trouble, one of 14 is refused. */
function desk() {
  const asked: number[][] = [];
  const answer = (q: Spread): SpreadAnswer => {
    const refused = q.rods.findIndex(({ lineOut }) => lineOut === 14);
    if (refused >= 0) throw new Refused([{ field: `rods[${refused}].lineOut`, code: "range", text: "" }]);
    return {
      aim: q.sea.speed,
      rods: q.rods.map(({ lineOut }, i) => ({
        depth: { mid: lineOut * q.sea.speed },
        ...(lineOut === 13 && { trouble: { field: `rods[${i}].lineOut`, code: "range", text: "" } }),
      })) as unknown as RodAnswer[],
    } as SpreadAnswer;
  };
  const ask = async (q: Spread) => {
    asked.push(q.rods.map(({ lineOut }) => lineOut));
    return answer(q);
  };
  return { asked, answer, ask };
}

it("asks for the rods alone that are other than they were, and for all where what they share is", async () => {
  const { asked, ask } = desk();
  const answers = new Answers(ask);
  await answers.ask(spread(1, 40, 50, 60));
  await answers.ask(spread(1, 40, 55, 60));
  await answers.ask(spread(1, 60, 40, 55));
  await answers.ask(spread(2, 60, 40, 55));
  // What is set alike is answered once.
  await answers.ask(spread(2, 70, 70, 60));
  expect(asked).toEqual([[40, 50, 60], [55], [60, 40, 55], [70]]);
});

it("answers as the desk does that is asked for all of them, whatever was asked before", async () => {
  const lines = fc.array(fc.constantFrom(12, 13, 14, 15, 16), { minLength: 1, maxLength: 6 });
  const one = fc.record({ speed: fc.constantFrom(1, 2), lines });
  await fc.assert(
    fc.asyncProperty(fc.array(one, { maxLength: 8 }), async (all) => {
      const { answer, ask } = desk();
      const answers = new Answers(ask);
      for (const { speed, lines } of all) {
        const q = spread(speed, ...lines);
        const said = await answers.ask(q).catch((fault: Refused) => fault.problems);
        const should = (() => {
          try {
            return answer(q);
          } catch (fault) {
            return (fault as Refused).problems;
          }
        })();
        expect(said).toEqual(should);
      }
    }),
  );
});

it("keeps nothing of what something newer took the place of, and asks again for what failed", async () => {
  const { asked, ask } = desk();
  let gone = false;
  const answers = new Answers(async (q) => {
    const answer = await ask(q);
    if (gone) return undefined;
    return answer;
  });
  await answers.ask(spread(1, 40, 50));
  gone = true;
  expect(await answers.ask(spread(1, 41, 50))).toBeUndefined();
  gone = false;
  await answers.ask(spread(1, 41, 50));
  expect(asked).toEqual([[40, 50], [41], [41]]);
});
