/** For tests: stands in for the browser's Worker, and answers calculations as the test says. */
import type { FromDesk, ToDesk } from "./messages";
import type { CalculationName, Calculations } from "./types/calculations.gen";
import type { Problem } from "./types/codec.gen";

type Answers = {
  [N in CalculationName]?: (request: Calculations[N]["request"]) => Calculations[N]["answer"] | Problem[];
};

export interface Asked {
  name: string;
  request: unknown;
}

/** The class to put in the place of Worker. What it is asked is written down; what it has no answer for dies. */
export const fakeWorker = (answers: Answers, asked: Asked[] = []) =>
  class {
    onmessage: ((event: { data: FromDesk }) => void) | null = null;
    onerror = null;

    constructor() {
      queueMicrotask(() => this.say({ ready: true }));
    }

    postMessage({ id, name, request }: ToDesk): void {
      const read = JSON.parse(request);
      asked.push({ name, request: read });
      const answer = (answers[name as CalculationName] as ((request: unknown) => unknown) | undefined)?.(
        read,
      );
      const reply = Array.isArray(answer) ? { problems: answer } : { answer };
      queueMicrotask(() =>
        this.say(answer === undefined ? { died: "no answer" } : { id, reply: JSON.stringify(reply) }),
      );
    }

    terminate(): void {}

    private say(data: FromDesk): void {
      this.onmessage?.({ data });
    }
  };

/** Lets everything happen that waits for answers alone; no time goes by. */
export async function answered(): Promise<void> {
  for (let turns = 0; turns < 100; turns++) await undefined;
}
