/**
 * Keeps this phone and the running trip alike: the trip's lists and particulars are remembered here for the next
 * trip, and what a trip does not have yet is brought into it.
 */
import { effect, untracked } from "@preact/signals";
import { same } from "../entry/entry";
import { running } from "../log/log";
import { amend, note } from "../log/saying/say";
import { boatOf, boatRecord, keptBoat, unknownBoat, untoldLimits } from "./boat";
import { changedLists, keptLists, listRecord } from "./lists";
import { mayChange } from "./role";
import { setTold, stillWaiting, waitingTicks } from "./told";
import { tripRecords } from "./trip";

/** A trip that was opened again long after says nothing of how things are now. */
const recent = 48 * 3600_000;

export function keepCrew(): void {
  effect(() => {
    const trip = running.value;
    if (!trip || !tripRecords("trip") || Date.now() - trip.opened > recent) return;
    // Once they are read they may want to be brought.
    keptBoat.found.value;
    keptLists.found.value;
    untracked(() => {
      remember();
      // The lists are the crew's: a guest brings none.
      if (mayChange()) bring();
      bringTicks();
    });
  });
}

function remember(): void {
  const told = boatRecord();
  if (told && !same(boatOf(told), keptBoat.value)) keptBoat.fill(boatOf(told));
  if (!same(changedLists.value, keptLists.value)) keptLists.fill(changedLists.value);
}

function bring(): void {
  const told = boatRecord();
  const limits = told && untoldLimits(told);
  if (limits && Object.keys(limits).length > 0) amend(told, { ...limits });
  if (!boatRecord() && !same(keptBoat.value, unknownBoat)) note("boat", { ...keptBoat.value });
  for (const list of keptLists.value) if (!listRecord(list.list)) note("list", { ...list });
}

function bringTicks(): void {
  const waiting = stillWaiting();
  if (waitingTicks.value.length > 0) waitingTicks.set([]);
  for (const { name } of waiting) setTold(name, true);
}
