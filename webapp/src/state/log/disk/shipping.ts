/** Photos on this disk, and how each stands with the server. */
import type { Photo, Shipment } from "./db";
import type { Write } from "./writing";

export async function putPhoto(tx: Write, full: Photo, thumb: Photo): Promise<void> {
  await tx.objectStore("photos").put(full);
  await tx.objectStore("thumbs").put(thumb);
}

export async function ship(tx: Write, sha256: string, how: Pick<Shipment, "out" | "why">): Promise<void> {
  const shipments = tx.objectStore("shipments");
  const known = await shipments.get(sha256);
  if (known) await shipments.put({ sha256, trip: known.trip, ...how });
}

/** Another server, or one that was put back: nothing is known of what it has, but of the trips that are sure. */
export async function shipAll(tx: Write, sure: (trip: string) => boolean): Promise<void> {
  for (const { sha256, trip, out } of await tx.objectStore("shipments").getAll())
    if (out || !sure(trip)) await ship(tx, sha256, { out: 1 });
}

/** Photos that the server lacks are to be sent; which of them are here. */
export async function lackingIn(tx: Write, wanted: string[]): Promise<string[]> {
  const here: string[] = [];
  for (const sha256 of wanted) {
    if (!(await tx.objectStore("photos").getKey(sha256))) continue;
    here.push(sha256);
    const known = await tx.objectStore("shipments").get(sha256);
    if (known && !known.out) await ship(tx, sha256, { out: 1 });
  }
  return here;
}

/** Lets go of photos that came from the server; false: there were none. */
export async function letGo(tx: Write): Promise<boolean> {
  let any = false;
  for (let at = await tx.objectStore("photos").openCursor(); at; at = await at.continue()) {
    if (!at.value.fetched) continue;
    await at.delete();
    any = true;
  }
  return any;
}
