/**
 * What is shown besides Lines, a room at a time: each is a file of its own, that comes when something of it is first
 * opened, with what is kept for it.
 */
import { later } from "../base/parts/come/later";
import { come } from "./come";
import { loadKept } from "./start";

/** A room, once what its pages show of what is kept has been read; notes come in as they are read. */
const withKept = async <Room>(room: Promise<Room>): Promise<Room> => {
  // In the words and units that are kept: by others all of it would be put into words anew.
  const [here, all] = await Promise.all([room, come(), loadKept()]);
  all.logRead();
  await all.loadPages();
  return here;
};

export const lines = later(() => withKept(import("./rooms/lines")));
export const pace = later(() => withKept(import("./rooms/pace")));
export const notes = later(() => withKept(import("./rooms/notes")));
export const fish = later(() => withKept(import("./rooms/fish")));
export const crew = later(() => withKept(import("./rooms/crew")));
export const locker = later(() => withKept(import("./rooms/locker")));
