/** What a rise wants of each rod, for the rows of Lines: so much line in; or, where there is nothing to do, none out. */
import { effect } from "@preact/signals";
import type { Coming } from "../../base/desk/types/rise.gen";
import { takeIn } from "../spread/request";
import { spread } from "../spread/spread";
import { behind } from "./behind";
import { apart } from "./warning";
import { looked, rise } from "./watch";

/** Ground ahead of a lure that is shallower than what its row goes by, also where the lure as it is passes above it. */
const isAhead = ({ trouble, verdict, shoalest }: Coming, bottom: number) =>
  !trouble && verdict !== "not sounded" && shoalest < bottom - apart;

export function keepOrders(): void {
  effect(() => {
    const { answer, spread: asked } = looked.value ?? {};
    const { bottom } = spread.value;
    const wants = new Map(rise.value?.rods.map(({ rod, lineIn }) => [rod, lineIn]));
    // Once all have come to what was read last, that is the ground they are over, until somebody says how deep it is.
    const over = behind.value !== undefined && behind.value < bottom - apart;
    takeIn.value = Object.fromEntries(
      (answer?.rods ?? []).flatMap((coming, i) =>
        wants.size > 0 || over || isAhead(coming, bottom) ? [[asked?.rods[i]?.id, wants.get(i) ?? 0]] : [],
      ),
    );
  });
}
