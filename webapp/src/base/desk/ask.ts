/** A question to the desk whose answer a page shows, if there is one; it is asked again whenever what it depends on changes. */
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Died, desk, Refused } from "./desk";
import type { CalculationName, Calculations } from "./types/calculations.gen";
import type { Problem } from "./types/codec.gen";

export interface Asked<A> {
  answer?: A;
  problem?: Problem | undefined;
}

export function useAnswer<N extends CalculationName>(
  name: N,
  request: Calculations[N]["request"] | undefined,
): Asked<Calculations[N]["answer"]> {
  const asked = useSignal<Asked<Calculations[N]["answer"]>>({});
  const key = JSON.stringify(request);
  useEffect(() => {
    if (!key) return;
    let wanted = true;
    desk
      .ask(name, JSON.parse(key))
      .then((answer) => {
        if (wanted) asked.value = { answer };
      })
      .catch((fault) => {
        if (wanted && fault instanceof Refused) asked.value = { problem: fault.problems[0] };
        else if (!(fault instanceof Refused || fault instanceof Died)) throw fault;
      });
    return () => {
      wanted = false;
    };
  }, [name, key, asked]);
  return asked.value;
}
