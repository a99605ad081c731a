/** Lets a page of the crew's know the running trip. */
import { running } from "../log/log";
import { useTrip } from "../log/refer";
import { tripRecords } from "./trip";

/** Brings the running trip on screen; whether its records are there. */
export function useRunningTrip(): boolean {
  useTrip(running.value?.trip);
  return tripRecords("trip") !== undefined;
}
